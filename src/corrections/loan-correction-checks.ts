import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { kgOf } from '../platform/fields';
import { Prisma } from '../platform/prisma-client/client';
import type { LoanState } from '../platform/prisma-client/enums';
import type { Mistake } from './correction-checks';

/** The loan for which a lot was handed over. */
export interface HandedOver {
  id: string;
  state: LoanState;
  lenderId: string;
  borrowerId: string;
  lenderName: string;
  returnedMassG: number;
}

/** Locks the loan for which a lot was handed over, if one was. A loan is locked before the lots, and before the club's lock on them. */
export function lockHandedOver(clubId: string, lotId: string): Prisma.Sql {
  return Prisma.sql`
    select n.id, n.state::text as state, n.lender_id as "lenderId", n.borrower_id as "borrowerId", p.name as "lenderName",
      n.returned_mass_g as "returnedMassG"
    from loan n
    join member m on m.club_id = n.club_id and m.id = n.lender_id
    join person p on p.id = m.person_id
    where n.club_id = ${clubId}::uuid and n.to_lot_id = ${lotId}::uuid for no key update of n`;
}

/** Who may correct what was handed over: the lender, whose lots they are; on hold only a steward. */
export function refuseOthersThanLender(
  caller: ClubCaller,
  { isOnHold }: Mistake,
  { lenderId }: HandedOver,
): void {
  if (caller.role === 'steward') return;
  if (caller.memberId !== lenderId) {
    throw new Refusal('not-yours', 'What was handed over, the lender or a steward corrects.');
  }
  if (isOnHold) {
    throw new Refusal('not-yours', 'Where a hold reaches, only a steward corrects what was lent.');
  }
}

/** Refuses another lot in place of a part, or of somebody else: what was handed over is all of one lot of the lender's. */
export function refuseOtherThanLendersLot(mistake: Mistake, loan: HandedOver): void {
  const { child, wrong, right, massG, recordedG } = mistake;
  if (right === null) return;
  if (right.holderId !== loan.lenderId) {
    const detail = `“${right.name}” is not held by ${loan.lenderName}: only a lot of the lender’s can have been handed over.`;
    throw new Refusal('lot-unsuitable', detail, { errors: [{ pointer: '#/rightLotId', detail }] });
  }
  if (massG < recordedG) {
    const detail = `“${child.name}” came from one lot: name all ${kgOf(recordedG)} kg. If it was two, correct to less of “${wrong.name}”, and lend the rest.`;
    throw new Refusal('lot-unsuitable', detail, {
      errors: [{ pointer: '#/massKg', detail }],
      offers: { lotId: wrong.id, recordedMassKg: kgOf(recordedG) },
    });
  }
}

/** Refuses so much less that the borrower would have used, reserved or given back what they never got. */
export function refuseTooMuchLess(mistake: Mistake, loan: HandedOver): void {
  const { child, right, massG, recordedG } = mistake;
  if (right !== null) return;
  if (loan.state !== 'lent') {
    throw new Refusal(
      'loan-out-of-order',
      `The loan is ${loan.state}: what was lent is settled. That it was of another lot can still be told.`,
      { offers: { state: loan.state } },
    );
  }
  const freeMassG = child.remainingMassG - child.reservedMassG;
  // Something was handed over: of a loan, and of a lot, more than nothing is left.
  const mostG = Math.min(freeMassG, recordedG - Math.max(1, loan.returnedMassG));
  if (massG <= mostG) return;
  const because =
    massG > freeMassG
      ? `of “${child.name}” ${kgOf(freeMassG)} kg are left to its holder and not reserved`
      : loan.returnedMassG > 0
        ? `${kgOf(loan.returnedMassG)} kg of it were given back`
        : 'something was handed over; what was not at all, let it be given back';
  const detail = `It cannot have been ${kgOf(massG)} kg less: ${because}. ${kgOf(mostG)} kg less would do.`;
  throw new Refusal('not-enough-mass', detail, {
    errors: [{ pointer: '#/massKg', detail }],
    offers: { lotId: child.id, mostMassKg: kgOf(mostG) },
  });
}
