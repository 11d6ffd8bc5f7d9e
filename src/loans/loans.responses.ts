import { deedsOf, type LoanDeed } from '../core/loans/loan-deeds';
import { Day, Id, Instant, kgOf, MassKg, OneOf, Part, Text, YesNo } from '../platform/fields';
import { SomeOf } from '../platform/list-fields';
import { LoanBeginning, LoanState } from '../platform/prisma-client/enums';
import type { LoanReturnRow, LoanRow } from './loan-rows';
import { MemberName } from '../members/member-name';
import { LotName } from '../lots/lot-name';

const deedWords = ['accept', 'decline', 'withdraw', 'hand-over', 'return', 'forgive'] as const;

export class LoanResponse {
  @Id()
  id!: string;

  @OneOf(LoanState, {
    is: 'asked or offered, then accepted, declined or withdrawn; lent once handed over; returned once given back whole, forgiven when the lender waived the rest.',
  })
  state!: LoanState;

  @OneOf(LoanBeginning, { is: 'How it began; lent: handed over at once.' })
  beganAs!: LoanBeginning;

  @SomeOf(deedWords, { min: 0, is: 'What may be done with it next.' })
  next!: LoanDeed[];

  @Part(() => MemberName, { nullable: true, is: 'null: asked for from anybody.' })
  lender!: MemberName | null;

  @Part(() => MemberName)
  borrower!: MemberName;

  @Part(() => LotName, {
    nullable: true,
    is: 'The lender’s lot: the one wished for, and that much less once handed over.',
  })
  fromLot!: LotName | null;

  @Part(() => LotName, { nullable: true, is: 'The lot that the borrower got.' })
  toLot!: LotName | null;

  @MassKg({ is: 'What is wished for, and once handed over what was lent.' })
  massKg!: number;

  @MassKg({ min: 0 })
  returnedMassKg!: number;

  @MassKg({ min: 0 })
  forgivenMassKg!: number;

  @MassKg({ min: 0, is: 'What is still owed: lent, less returned and forgiven.' })
  owedMassKg!: number;

  @Instant({ is: 'When it was asked for, offered or, at once, recorded.' })
  begunAt!: string;

  @Instant({ nullable: true })
  acceptedAt!: string | null;

  @Instant({ nullable: true, is: 'When it was handed over.' })
  at!: string | null;

  @Day({ nullable: true })
  dueOn!: string | null;

  @YesNo({ is: 'Something is still owed after that day, by the club’s calendar.' })
  overdue!: boolean;

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Instant({
    nullable: true,
    is: 'When it was declined, withdrawn, given back whole or forgiven.',
  })
  endedAt!: string | null;

  @Part(() => MemberName, { nullable: true })
  endedBy!: MemberName | null;

  @Text({ min: 0, max: 2000 })
  endedBecause!: string;
}

export function toLoanResponse(row: LoanRow): LoanResponse {
  return {
    id: row.id,
    state: row.state,
    beganAs: row.beganAs,
    next: [...deedsOf(row.state)],
    lender: named(row.lenderId, row.lenderName),
    borrower: { id: row.borrowerId, name: row.borrowerName },
    fromLot: named(row.fromLotId, row.fromLotName),
    toLot: named(row.toLotId, row.toLotName),
    massKg: kgOf(row.massG),
    returnedMassKg: kgOf(row.returnedMassG),
    forgivenMassKg: kgOf(row.forgivenMassG),
    owedMassKg: kgOf(row.owedMassG),
    begunAt: row.begunAt.toISOString(),
    acceptedAt: row.acceptedAt?.toISOString() ?? null,
    at: row.lentAt?.toISOString() ?? null,
    dueOn: row.dueOn,
    overdue: row.overdue,
    note: row.note,
    endedAt: row.endedAt?.toISOString() ?? null,
    endedBy: named(row.endedById, row.endedByName),
    endedBecause: row.endedBecause,
  };
}

function named(id: string | null, name: string | null): { id: string; name: string } | null {
  return id === null || name === null ? null : { id, name };
}

export class LoanReturnResponse {
  @Id()
  id!: string;

  @Part(() => LotName, { is: 'The borrower’s lot, which has that much less.' })
  fromLot!: LotName;

  @Part(() => LotName, { is: 'The lot that the lender got.' })
  toLot!: LotName;

  @MassKg()
  massKg!: number;

  @Instant()
  at!: string;

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Part(() => MemberName)
  recordedBy!: MemberName;

  @Instant()
  recordedAt!: string;
}

export function toLoanReturnResponse(row: LoanReturnRow): LoanReturnResponse {
  return {
    id: row.id,
    fromLot: { id: row.fromLotId, name: row.fromLotName },
    toLot: { id: row.toLotId, name: row.toLotName },
    massKg: kgOf(row.massG),
    at: row.at.toISOString(),
    note: row.note,
    recordedBy: { id: row.recordedById, name: row.recordedByName },
    recordedAt: row.recordedAt.toISOString(),
  };
}
