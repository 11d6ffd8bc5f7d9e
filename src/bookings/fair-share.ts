import { placeDaysAhead } from '../core/planning/place-days';
import { Refusal } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

/** What is asked for. */
interface Asked {
  startsAt: Date;
  endsAt: Date;
  places: number;
}

/** Whose share, and how many place-days they may have booked ahead. */
export interface FairShare {
  memberId: string;
  limit: number;
}

/**
 * The fair share of a member, or of whoever holds a booking, where the club set a limit; null where it did not. Locks the member, so that of two
 * bookings at once the second sees the first. Ask before any station is locked.
 */
export async function lockFairShare(
  tx: Transaction,
  clubId: string,
  whose: { memberId: string } | { bookingId: string },
): Promise<FairShare | null> {
  const memberId =
    'memberId' in whose
      ? Prisma.sql`${whose.memberId}::uuid`
      : Prisma.sql`(select member_id from booking where club_id = ${clubId}::uuid and id = ${whose.bookingId}::uuid)`;
  const [share] = await tx.$queryRaw<FairShare[]>(Prisma.sql`
    select m.id as "memberId", c.place_days_ahead as "limit"
    from member m join club c on c.id = m.club_id
    where m.club_id = ${clubId}::uuid and m.id = ${memberId} and c.place_days_ahead is not null
    for no key update of m`);
  return share ?? null;
}

/**
 * Refuses what would take the member beyond their share. A booking that is being moved is left out of what they have; it may always become
 * smaller. What is kept for somebody on the waiting list counts from the moment they take it.
 */
export async function refuseBeyondShare(
  tx: Transaction,
  clubId: string,
  share: FairShare | null,
  asked: Asked,
  now: Date,
  moved?: Asked & { id: string },
): Promise<void> {
  if (share === null) return;
  const usedPlaceDays = placeDaysAhead(
    await bookedAhead(tx, clubId, share.memberId, now, moved?.id),
    now.getTime(),
  );
  const neededPlaceDays = ahead(asked, now);
  const fits = usedPlaceDays + neededPlaceDays <= share.limit;
  if (fits || (moved !== undefined && neededPlaceDays <= ahead(moved, now))) return;

  const left = Math.max(0, share.limit - usedPlaceDays);
  throw new Refusal(
    'fair-share',
    `${twoDecimals(usedPlaceDays)} of at most ${share.limit} place-days are booked ahead${moved === undefined ? '' : ' beside this booking'}; this needs ${twoDecimals(neededPlaceDays)}, and ${twoDecimals(left)} are left. Take fewer places or a shorter time; a steward may allow more.`,
    {
      offers: {
        usedPlaceDays: twoDecimals(usedPlaceDays),
        neededPlaceDays: twoDecimals(neededPlaceDays),
        mostPlaceDays: share.limit,
      },
    },
  );
}

export function twoDecimals(placeDays: number): number {
  return Math.round(placeDays * 100) / 100;
}

function ahead({ startsAt, endsAt, places }: Asked, now: Date): number {
  const booking = { startsAt: startsAt.getTime(), endsAt: endsAt.getTime(), places };
  return placeDaysAhead([booking], now.getTime());
}

async function bookedAhead(
  tx: Transaction,
  clubId: string,
  memberId: string,
  now: Date,
  exceptId?: string,
) {
  const rows = await tx.booking.findMany({
    where: {
      clubId,
      memberId,
      active: true,
      keptUntil: null,
      endsAt: { gt: now },
      ...(exceptId !== undefined && { id: { not: exceptId } }),
    },
    select: { startsAt: true, endsAt: true, _count: { select: { places: true } } },
  });
  return rows.map(({ startsAt, endsAt, _count }) => ({
    startsAt: startsAt.getTime(),
    endsAt: endsAt.getTime(),
    places: _count.places,
  }));
}
