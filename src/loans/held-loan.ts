import { deedsOf, type LoanDeed } from '../core/loans/loan-deeds';
import { invalidField, Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { loanRows, type LoanRow } from './loan-rows';

/** Locks a loan of the caller's club: what happens to one loan happens one after the other. Its lots are locked after it, never before. */
export async function holdLoan(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
  now: Date,
): Promise<LoanRow> {
  await tx.$queryRaw(Prisma.sql`
    select id from loan where club_id = ${caller.clubId}::uuid and id = ${id}::uuid for no key update`);
  return readLoan(tx, caller, id, now);
}

export async function readLoan(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
  now: Date,
): Promise<LoanRow> {
  const [row] = await tx.$queryRaw<LoanRow[]>(
    loanRows(caller.clubId, Prisma.sql`n.id = ${id}::uuid`, 1, now),
  );
  if (row === undefined) throw new Refusal('not-found');
  return row;
}

/** Refuses whoever is neither that member nor a steward. */
export function refuseOthers(caller: ClubCaller, memberId: string | null, who: string): void {
  if (caller.memberId === memberId || caller.role === 'steward') return;
  throw new Refusal('not-yours', `Only ${who} or a steward may do this.`);
}

/** Refuses a deed that does not come next, and says which do. */
export function refuseOutOfOrder({ state }: LoanRow, deed: LoanDeed): void {
  const next = deedsOf(state);
  if (next.includes(deed)) return;
  const words = next.length === 0 ? 'nothing more is to be done' : next.join(' or ');
  throw new Refusal('loan-out-of-order', `The loan is ${state}; next may come: ${words}.`, {
    offers: { state, next },
  });
}

/** Refuses a day that is over when the seed is handed over, by the clock of the club. */
export async function refuseDueBefore(
  tx: Transaction,
  clubId: string,
  dueOn: string | null | undefined,
  at: Date,
): Promise<void> {
  if (dueOn === undefined || dueOn === null) return;
  const [club] = await tx.$queryRaw<{ day: string }[]>(Prisma.sql`
    select to_char(${at}::timestamptz at time zone time_zone, 'YYYY-MM-DD') as day from club where id = ${clubId}::uuid`);
  if (club !== undefined && dueOn < club.day) {
    throw invalidField('#/dueOn', 'It must not be due before it is lent.');
  }
}

/** Refuses somebody who is not in the club, and whoever is on the other side already. */
export async function refuseUnfitMember(
  tx: Transaction,
  clubId: string,
  side: { pointer: string; memberId: string; otherId: string | null },
): Promise<void> {
  const { pointer, memberId, otherId } = side;
  if (memberId.toLowerCase() === otherId) {
    throw invalidField(pointer, 'Nobody lends to themselves: name another member.');
  }
  const member = await tx.member.findFirst({
    where: { clubId, id: memberId, leftAt: null },
    select: { id: true },
  });
  if (member === null) throw invalidField(pointer, 'The club has no such member.');
}

export function dayOf(dueOn: string | null | undefined): Date | null {
  return dueOn === undefined || dueOn === null ? null : new Date(`${dueOn}T00:00:00Z`);
}
