import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import type { PlanAlternative, PlanSlot } from './plan-alternative.responses';
import type { PlanBooking, PlanResponse, PlanState } from './plans.responses';
import type { PlanRequest } from './plans.requests';

/** A slot with the places that were found for it. */
export interface StoredSlot extends PlanSlot {
  placeIds: string[];
}

export interface StoredAlternative extends Omit<PlanAlternative, 'slots'> {
  slots: StoredSlot[];
}

/** What a plan keeps of what it answered. */
export interface StoredPlan extends Pick<
  PlanResponse,
  | 'name'
  | 'inputs'
  | 'seed'
  | 'hold'
  | 'soonerWithDutyWindow'
  | 'warnings'
  | 'cautions'
  | 'assumptions'
> {
  alternatives: StoredAlternative[];
  bookedAlternative: number | null;
  bookings: PlanBooking[];
}

export interface PlanRow {
  id: string;
  memberId: string;
  memberName: string;
  createdAt: Date;
  expiresAt: Date;
  batchId: string | null;
  /** The request as it came, with its times as text. */
  request: Omit<PlanRequest, 'earliestStart' | 'comesAt'> & {
    earliestStart?: string;
    comesAt?: { startsAt: string; endsAt: string }[];
  };
  stored: StoredPlan;
}

/** The plans of a club for which `condition` holds, the newest first; `n` is the plan. */
export function planRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select n.id, n.member_id as "memberId", p.name as "memberName", n.created_at as "createdAt", n.expires_at as "expiresAt",
      n.batch_id as "batchId", n.request, n.alternatives as stored
    from plan n
    join member m on m.club_id = n.club_id and m.id = n.member_id
    join person p on p.id = m.person_id
    where n.club_id = ${clubId}::uuid and ${condition}
    order by n.id desc limit ${limit}::int`;
}

/** The plan, locked: what happens to one plan happens one after the other. Undefined when the club has none of this id. */
export async function heldPlan(
  tx: Transaction,
  clubId: string,
  id: string,
): Promise<PlanRow | undefined> {
  await tx.$queryRaw(Prisma.sql`
    select 1 from plan where club_id = ${clubId}::uuid and id = ${id}::uuid for no key update`);
  return planOf(tx, clubId, id);
}

export async function planOf(
  tx: Transaction,
  clubId: string,
  id: string,
): Promise<PlanRow | undefined> {
  const [row] = await tx.$queryRaw<PlanRow[]>(planRows(clubId, Prisma.sql`n.id = ${id}::uuid`, 1));
  return row;
}

/** Members in the order of the classes: what is kept as JSON comes back in another, and an ETag must not depend on it. */
export function toPlanResponse(row: PlanRow, now: Date): PlanResponse {
  const { stored } = row;
  return {
    id: row.id,
    member: { id: row.memberId, name: row.memberName },
    name: stored.name,
    state: stateOf(row, now),
    createdAt: row.createdAt.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
    batchId: row.batchId,
    bookedAlternative: stored.bookedAlternative,
    bookings: stored.bookings,
    inputs: stored.inputs,
    seed: stored.seed,
    hold: stored.hold,
    alternatives: stored.alternatives.map((alternative) => ({
      ...alternative,
      slots: alternative.slots.map(toSlot),
    })),
    soonerWithDutyWindow: stored.soonerWithDutyWindow,
    warnings: stored.warnings,
    cautions: stored.cautions,
    assumptions: stored.assumptions,
  };
}

export function toSlot(slot: StoredSlot): PlanSlot {
  const { step, stationId, stationName, duty, minC, maxC, startsAt, endsAt, places } = slot;
  return { step, stationId, stationName, duty, minC, maxC, startsAt, endsAt, places };
}

function stateOf({ batchId, expiresAt }: PlanRow, now: Date): PlanState {
  if (batchId !== null) return 'booked';
  return expiresAt <= now ? 'expired' : 'offered';
}
