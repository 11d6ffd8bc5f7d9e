import { ApiProperty } from '@nestjs/swagger';
import { batchTaskKinds } from '../core/batches/tasks-of-batch';
import { stepOrder } from '../core/batches/next-steps';
import { Id, Instant, OneOf, Part, Text, Whole, YesNo } from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { MemberName } from '../members/member-name';
import { PlaceNumbers } from '../stations/place-numbers';

export const taskKinds = [...batchTaskKinds, 'return-loan'] as const;
export type TaskKind = (typeof taskKinds)[number];

export class TodayThing {
  @Id()
  id!: string;

  @Text({ max: 200 })
  name!: string;
}

/** The request that does it. */
export class TodayRequest {
  @OneOf(['POST'])
  method!: 'POST';

  @Text({ max: 300, example: '/api/v1/clubs/…/batches/…/steps' })
  path!: string;

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    description: 'Ready to send once what stands under fillIn is added.',
  })
  body!: Record<string, unknown>;

  @Texts({
    max: 100,
    most: 10,
    is: 'What the body still lacks: JSON Pointers as URI fragments (RFC 6901).',
  })
  fillIn!: string[];
}

export class TodayTask {
  @OneOf(taskKinds)
  kind!: TaskKind;

  @Text({ max: 1000, is: 'What to do, by the clock of the club.' })
  sentence!: string;

  @Part(() => MemberName)
  member!: MemberName;

  @Part(() => TodayThing, { nullable: true })
  batch!: TodayThing | null;

  @Id({ nullable: true })
  bookingId!: string | null;

  @Id({ nullable: true })
  loanId!: string | null;

  @Instant({ nullable: true, is: 'Not to be done before; null: any time.' })
  notBefore!: string | null;

  @Instant({ nullable: true, is: 'Late from then on; null: never.' })
  dueAt!: string | null;

  @YesNo({ is: 'false: its time has not come.' })
  isOpen!: boolean;

  @YesNo()
  late!: boolean;

  @Whole({ min: 0, max: 2_147_483_647, nullable: true, is: 'null: it is not late.' })
  lateMinutes!: number | null;

  @Part(() => TodayRequest)
  request!: TodayRequest;

  @Texts({ max: 500, most: 5 })
  cautions!: string[];
}

export class TodayPlaces {
  @Id()
  bookingId!: string;

  @Text({ max: 80 })
  stationName!: string;

  @PlaceNumbers()
  places!: number[];

  @Instant()
  until!: string;
}

export class TodayHoney {
  @Part(() => TodayThing)
  batch!: TodayThing;

  @Part(() => MemberName)
  member!: MemberName;

  @OneOf(stepOrder, { is: 'The last step done.' })
  stage!: (typeof stepOrder)[number];

  @Instant()
  stageAt!: string;

  @Each(() => TodayPlaces, { max: 20, is: 'Booked for it now.' })
  places!: TodayPlaces[];

  @Instant({ nullable: true, is: 'null: nobody has looked.' })
  lastLookAt!: string | null;

  @Instant({
    nullable: true,
    is: 'As likely set before as after; see setting-forecast for the rest. null: nothing is forecast.',
  })
  expectedSetAt!: string | null;

  @Instant({ nullable: true, is: 'Set by then with 80 percent certainty.' })
  almostSurelySetAt!: string | null;
}

export class TodayUndo {
  @OneOf(['step', 'look'])
  what!: 'step' | 'look';

  @Text({ max: 500 })
  sentence!: string;

  @Part(() => TodayThing)
  batch!: TodayThing;

  @Instant({ is: 'Until then it can be taken back.' })
  until!: string;

  @Part(() => TodayRequest)
  request!: TodayRequest;
}

export class TodayResponse {
  @Instant({ is: 'To the minute.' })
  at!: string;

  @Each(() => TodayTask, { max: 2000, is: 'What is late first, then by when it is due.' })
  tasks!: TodayTask[];

  @Each(() => TodayHoney, { max: 300, is: 'In the room: loaded, and neither set nor given up.' })
  honey!: TodayHoney[];

  @Each(() => TodayUndo, {
    max: 300,
    is: 'What you filed just now and may take back, the latest first.',
  })
  undo!: TodayUndo[];
}
