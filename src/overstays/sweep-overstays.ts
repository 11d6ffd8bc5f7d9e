import { notify, type News } from '../notices/notify';
import type { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { overstayRows, type OverstayRow } from './overstay-rows';

const job = { requestId: 'sweep-overstays', ifMatch: null, idempotency: null };
const atOnce = 500;
/** Whoever is a little late with clearing is not reminded. Common practice, no source. */
const graceMs = 15 * 60_000;

/**
 * Tells, once each, the holder that honey stands past its end, and whoever has booked the places next and whose time has begun that
 * they are not clear. Changes no booking. For a job that runs every minute; several at a time do no harm. Answers how many overstays
 * there are.
 */
export async function sweepOverstays(database: Database, now: Date): Promise<number> {
  const overstays = await database.rows<OverstayRow>(overstayRows(now, untold(now), atOnce));
  for (const clubId of new Set(overstays.map((one) => one.clubId))) {
    const news = overstays
      .filter((one) => one.clubId === clubId)
      .flatMap((one) => [...newsForHolder(one, now), ...newsForNext(one, now)]);
    await database.write(job, (tx) => notify(tx, clubId, news));
  }
  return overstays.length;
}

/** Overstays of which the holder, or somebody whose time has begun, has not been told. */
function untold(now: Date): Prisma.Sql {
  return Prisma.sql`(
    (b.ends_at <= ${new Date(now.getTime() - graceMs)} and not exists (
      select from notice t where t.club_id = b.club_id and t.member_id = b.member_id
        and t.event = 'booking.overstay ' || b.id || ' ' || floor(extract(epoch from b.ends_at))::text))
    or exists (
      select from booking n
      join booking_place h on h.club_id = n.club_id and h.booking_id = n.id
      join booking_place mine on mine.club_id = h.club_id and mine.place_id = h.place_id and mine.booking_id = b.id
      where n.club_id = b.club_id and n.station_id = b.station_id and n.active and n.kept_until is null
        and n.starts_at >= b.ends_at and n.starts_at <= ${now} and n.ends_at > ${now}
        and not exists (
          select from notice t where t.club_id = n.club_id and t.member_id = n.member_id
            and t.event = 'booking.places-not-cleared ' || n.id || ' ' || b.id)))`;
}

function newsForHolder(row: OverstayRow, now: Date): News[] {
  if (row.endsAt.getTime() > now.getTime() - graceMs) return [];
  const [next] = row.next;
  return [
    {
      memberId: row.memberId,
      kind: 'booking.overstay',
      // Extended and past its end again, it is told again.
      event: `booking.overstay ${row.bookingId} ${Math.floor(row.endsAt.getTime() / 1000)}`,
      subjectId: row.bookingId,
      details: {
        stationName: row.stationName,
        endedAt: row.endsAt.toISOString(),
        places: row.places.length,
        nextName: next?.memberName ?? null,
        nextStartsAt: next?.startsAt ?? null,
      },
    },
  ];
}

function newsForNext(row: OverstayRow, now: Date): News[] {
  return row.next
    .filter(({ startsAt }) => new Date(startsAt) <= now)
    .map((next) => ({
      memberId: next.memberId,
      kind: 'booking.places-not-cleared',
      event: `booking.places-not-cleared ${next.bookingId} ${row.bookingId}`,
      subjectId: next.bookingId,
      details: {
        stationName: row.stationName,
        memberName: row.memberName,
        startsAt: next.startsAt,
        places: next.places.length,
      },
    }));
}
