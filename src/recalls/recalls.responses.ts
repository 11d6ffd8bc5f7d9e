import { Decimal, Id, Instant, MassKg, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { LotKind } from '../platform/prisma-client/enums';
import { ShareFraction } from '../lots/written-share';
import { MemberName } from '../members/member-name';

export class RecallPlace {
  @Text({ max: 120 })
  station!: string;

  @Text({ max: 2000, is: 'Numbers of the places.' })
  places!: string;

  @Instant({ is: 'Booked until then.' })
  until!: string;
}

export class RecallPots {
  @MassKg({ is: 'In each.' })
  netMassKg!: number;

  @Whole({ min: 1, max: 1_000_000 })
  count!: number;
}

export class RecallLoan {
  @Text({ max: 200 })
  to!: string;

  @Id({ is: 'The lot that they got: it stands in the report, too.' })
  lotId!: string;

  @MassKg({ max: 1_000_000 })
  massKg!: number;

  @Instant()
  at!: string;
}

export class RecallWithdrawal {
  @OneOf(['used', 'potted', 'lost'])
  kind!: 'used' | 'potted' | 'lost';

  @MassKg({ max: 1_000_000 })
  massKg!: number;

  @Instant()
  at!: string;

  @Text({ min: 0, max: 2000 })
  note!: string;
}

const part = { min: 0, max: 1_000_000 };

/** Where the suspect lot's mass is. The four parts add up to the gram. */
export class RecallMasses {
  @MassKg({ ...part, is: 'Of the suspect lot: the four that follow, added up.' })
  foundKg!: number;

  @MassKg({ ...part, is: 'Still there.' })
  inLotsKg!: number;

  @MassKg({ ...part, is: 'In pots.' })
  pottedKg!: number;

  @MassKg({ ...part, is: 'Taken out for some use that made no other lot.' })
  withdrawnKg!: number;

  @MassKg({ ...part, is: 'Lost, in the making or later.' })
  lostKg!: number;
}

export class RecalledLotResponse extends RecallMasses {
  @Id()
  lotId!: string;

  @Text({ max: 7, is: 'What stands on its tub, without the dash.' })
  code!: string;

  @OneOf(LotKind)
  kind!: LotKind;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  holder!: MemberName;

  @Decimal({ min: 0, max: 1, decimals: 20, is: 'Mass fraction of the suspect lot in this one.' })
  share!: number;

  @ShareFraction()
  shareFraction!: string | null;

  @MassKg({ ...part, is: 'So much of the suspect lot went into it, rounded to the gram.' })
  suspectMassKg!: number;

  @MassKg({ ...part, is: 'Of the whole lot, so much is still there.' })
  remainingMassKg!: number;

  @Each(() => RecallPlace, { max: 1000, is: 'Where it stands now, as far as that is booked.' })
  places!: RecallPlace[];

  @Each(() => RecallPots, { max: 1000 })
  pots!: RecallPots[];

  @Each(() => RecallLoan, { max: 10_000 })
  lentTo!: RecallLoan[];

  @Each(() => RecallWithdrawal, {
    max: 100_000,
    is: 'What left the lot and went into no other: of the whole lot.',
  })
  withdrawals!: RecallWithdrawal[];

  @Texts({ max: 36, most: 10_000, is: 'The open holds that reach it, by their ids.' })
  onHold!: string[];
}

export class RecallTotals extends RecallMasses {
  @Whole({ min: 0, max: 1_000_000 })
  lots!: number;

  @Whole({ min: 0, max: 1_000_000, is: 'Members who hold one of them.' })
  holders!: number;
}

export class RecallResponse {
  @Id()
  lotId!: string;

  @Text({ max: 120 })
  name!: string;

  @MassKg({ max: 1_000_000, is: 'What the suspect lot began with.' })
  initialMassKg!: number;

  @Part(() => RecallTotals, {
    is: 'Of all lots, listed or not, the suspect one among them: foundKg is all that it began with.',
  })
  totals!: RecallTotals;

  @Part(() => RecallTotals, { is: 'Of the lots that hold too little of it to be listed.' })
  notListed!: RecallTotals;

  @Each(() => RecalledLotResponse, {
    max: 1_000_000,
    is: 'The suspect lot, then the lots that it is in, each after what it was made of.',
  })
  items!: RecalledLotResponse[];
}
