import { Id, Instant, kgOf, MassKg, Part, Text } from '../platform/fields';
import { Each } from '../platform/list-fields';
import type { CorrectionRow } from './correction-rows';
import { MemberName } from '../members/member-name';
import { LotName } from '../lots/lot-name';

export class FirstRecord {
  @MassKg({ max: 1_000_000 })
  massKg!: number;

  @Instant({ is: 'When it went in: the right lot’s mass went in then, too.' })
  at!: string;

  @Part(() => MemberName)
  by!: MemberName;

  @Instant()
  recordedAt!: string;
}

export class InputNow extends LotName {
  @MassKg({ max: 1_000_000 })
  massKg!: number;
}

export class CorrectionResponse {
  @Id()
  id!: string;

  @Id({ is: 'The lot whose inputs were corrected.' })
  lotId!: string;

  @Part(() => LotName)
  wrongLot!: LotName;

  @Part(() => LotName, { nullable: true })
  rightLot!: LotName | null;

  @MassKg({ max: 1_000_000 })
  massKg!: number;

  @Text({ max: 2000 })
  because!: string;

  @Part(() => MemberName)
  recordedBy!: MemberName;

  @Instant()
  recordedAt!: string;

  @Part(() => FirstRecord, { is: 'What stood there first, of the wrong lot; it is kept.' })
  firstRecord!: FirstRecord;

  @Each(() => InputNow, { max: 1000, is: 'All that went into the lot, as it is known now.' })
  inputs!: InputNow[];
}

export function toCorrectionResponse(row: CorrectionRow): CorrectionResponse {
  const { firstRecord: first } = row;
  return {
    id: row.id,
    lotId: row.lotId,
    wrongLot: { id: row.wrongLotId, name: row.wrongLotName },
    rightLot:
      row.rightLotId === null || row.rightLotName === null
        ? null
        : { id: row.rightLotId, name: row.rightLotName },
    massKg: kgOf(row.massG),
    because: row.because,
    recordedBy: { id: row.recordedById, name: row.recordedByName },
    recordedAt: row.recordedAt.toISOString(),
    firstRecord: {
      massKg: kgOf(first.massG),
      at: new Date(first.at).toISOString(),
      by: { id: first.byId, name: first.byName },
      recordedAt: new Date(first.recordedAt).toISOString(),
    },
    inputs: row.inputs.map(({ lotId, name, massG }) => ({ id: lotId, name, massKg: kgOf(massG) })),
  };
}
