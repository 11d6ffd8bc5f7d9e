import { balancesOf } from '../core/loans/balances';
import { Day, Decimal, Id, kgOf, MassKg, Part, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { MemberName } from '../members/member-name';

/** No club has that many open loans. */
export const mostOpenLoans = 5000;

export class OwedLoanResponse {
  @Id()
  id!: string;

  @Id()
  lenderId!: string;

  @Id()
  borrowerId!: string;

  @MassKg()
  massKg!: number;

  @MassKg()
  owedMassKg!: number;

  @Day({ nullable: true })
  dueOn!: string | null;

  @YesNo()
  overdue!: boolean;
}

export class PairBalanceResponse {
  @Part(() => MemberName, { is: 'Who has seed to come, all loans between the two taken together.' })
  creditor!: MemberName;

  @Part(() => MemberName)
  debtor!: MemberName;

  @MassKg({ min: 0, max: 1_000_000, is: '0: they owe each other alike.' })
  netMassKg!: number;

  @Each(() => OwedLoanResponse, { max: mostOpenLoans, is: 'The oldest first.' })
  loans!: OwedLoanResponse[];
}

export class MemberBalanceResponse {
  @Part(() => MemberName)
  member!: MemberName;

  @MassKg({ min: 0, max: 1_000_000, is: 'What others owe this member.' })
  owedMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000, is: 'What this member owes others.' })
  owesMassKg!: number;

  @Decimal({
    min: -1_000_000,
    max: 1_000_000,
    decimals: 3,
    is: 'The first less the second; over all members these add up to 0.',
  })
  netMassKg!: number;
}

export class LoanBalancesResponse {
  @Each(() => PairBalanceResponse, { max: mostOpenLoans })
  pairs!: PairBalanceResponse[];

  @Each(() => MemberBalanceResponse, { max: mostOpenLoans })
  members!: MemberBalanceResponse[];
}

/** A loan of which something is owed. */
export interface OwedRow {
  id: string;
  lenderId: string;
  lenderName: string;
  borrowerId: string;
  borrowerName: string;
  massG: number;
  owedMassG: number;
  dueOn: string | null;
  overdue: boolean;
}

export function toLoanBalances(rows: readonly OwedRow[]): LoanBalancesResponse {
  const names = new Map(
    rows.flatMap(({ lenderId, lenderName, borrowerId, borrowerName }) => [
      [lenderId, lenderName],
      [borrowerId, borrowerName],
    ]),
  );
  const member = (id: string) => ({ id, name: names.get(id) ?? '' });
  const { pairs, members } = balancesOf(rows);
  return {
    pairs: pairs.map(({ creditorId, debtorId, netMassG, loans }) => ({
      creditor: member(creditorId),
      debtor: member(debtorId),
      netMassKg: kgOf(netMassG),
      loans: loans.map(({ id, lenderId, borrowerId, massG, owedMassG, dueOn, overdue }) => ({
        id,
        lenderId,
        borrowerId,
        massKg: kgOf(massG),
        owedMassKg: kgOf(owedMassG),
        dueOn,
        overdue,
      })),
    })),
    members: members.map(({ memberId, owedToG, owesG }) => ({
      member: member(memberId),
      owedMassKg: kgOf(owedToG),
      owesMassKg: kgOf(owesG),
      netMassKg: kgOf(owedToG - owesG),
    })),
  };
}
