import { Day, Id, Instant, kgOf, MassKg, Part, Text } from '../platform/fields';
import type { LoanRow } from './loan-rows';

export class LoanMember {
  @Id()
  id!: string;

  @Text({ max: 200 })
  name!: string;
}

export class LoanLot {
  @Id()
  id!: string;

  @Text({ max: 120 })
  name!: string;
}

export class LoanResponse {
  @Id()
  id!: string;

  @Part(() => LoanMember)
  lender!: LoanMember;

  @Part(() => LoanMember)
  borrower!: LoanMember;

  @Part(() => LoanLot, { is: 'The lender’s lot, which has that much less.' })
  fromLot!: LoanLot;

  @Part(() => LoanLot, { is: 'The lot that the borrower got.' })
  toLot!: LoanLot;

  @MassKg()
  massKg!: number;

  @Instant()
  at!: string;

  @Day({ nullable: true })
  dueOn!: string | null;

  @Text({ min: 0, max: 2000 })
  note!: string;
}

export function toLoanResponse(row: LoanRow): LoanResponse {
  return {
    id: row.id,
    lender: { id: row.lenderId, name: row.lenderName },
    borrower: { id: row.borrowerId, name: row.borrowerName },
    fromLot: { id: row.fromLotId, name: row.fromLotName },
    toLot: { id: row.toLotId, name: row.toLotName },
    massKg: kgOf(row.massG),
    at: row.lentAt.toISOString(),
    dueOn: row.dueOn,
    note: row.note,
  };
}
