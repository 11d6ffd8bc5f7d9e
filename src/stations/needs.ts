import { Refusal } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty } from '../platform/prisma-client/enums';

/** A booking that still needs its station: it is not over, or its honey stands there past its end. */
export interface Need {
  id: string;
  memberId: string;
  memberName: string;
  duty: Duty;
  minC: number;
  maxC: number;
  startsAt: Date;
  endsAt: Date;
  /** Only kept until then for somebody who waits. */
  keptUntil: Date | null;
  /** Their numbers. */
  places: number[];
}

/** What still needs the locked station, what ends first before the rest. What is only kept for somebody who waits is among it. */
export async function needsOf(
  tx: Transaction,
  clubId: string,
  stationId: string,
  now: Date,
): Promise<Need[]> {
  return tx.$queryRaw<Need[]>(Prisma.sql`
    select b.id, b.member_id as "memberId", p.name as "memberName", b.duty::text as duty, b.min_deci_c / 10.0::float8 as "minC",
      b.max_deci_c / 10.0::float8 as "maxC", b.starts_at as "startsAt", b.ends_at as "endsAt",
      b.kept_until as "keptUntil",
      (select coalesce(array_agg(l.number order by l.number), '{}') from booking_place h
       join place l on l.club_id = h.club_id and l.id = h.place_id
       where h.club_id = b.club_id and h.booking_id = b.id) as places
    from booking b
    join member m on m.club_id = b.club_id and m.id = b.member_id
    join person p on p.id = m.person_id
    where b.club_id = ${clubId}::uuid and b.station_id = ${stationId}::uuid and b.active
      and (b.ends_at > ${now} or b.arrived_at is not null and b.cleared_at is null)
    order by b.ends_at, b.id`);
}

/** What was asked for and cannot be, and what would work instead. */
export interface TakenAway {
  /** What the bookings need, as it stands in "2 bookings need …". */
  what: string;
  /** The field that asked for it. */
  pointer: string;
  needs: readonly Need[];
  /** Duty windows ahead that need it, too. */
  windows?: readonly { id: string; endsAt: Date }[];
  advice?: string;
  offers?: Record<string, unknown>;
}

/** The refusal to take away what is needed: by which bookings, and from when on it would work. */
export function stillNeeded(
  { what, pointer, needs, windows = [], advice, offers }: TakenAway,
  now: Date,
): Refusal {
  const uncleared = needs.filter(({ endsAt }) => endsAt <= now);
  const ends = [...needs, ...windows].map(({ endsAt }) => endsAt.getTime());
  const worksFrom = uncleared.length > 0 ? null : new Date(Math.max(...ends));
  const when =
    worksFrom === null
      ? `Honey of ${namesOf(uncleared)} stands there past its time: once its places are clear and the others are over, it works.`
      : `The last ends at ${worksFrom.toISOString()}: from then on it works.`;
  const detail = [`${subjectOf(needs.length, windows.length)} ${what}.`, when, advice]
    .filter((words) => words !== undefined)
    .join(' ');
  return new Refusal('still-needed', detail, {
    errors: [{ pointer, detail }],
    offers: {
      bookings: needs.map(({ id }) => id),
      dutyWindows: windows.map(({ id }) => id),
      worksFrom: worksFrom?.toISOString() ?? null,
      uncleared: uncleared.map(({ id, memberName, endsAt, places }) => ({
        bookingId: id,
        memberName,
        endedAt: endsAt.toISOString(),
        places,
      })),
      ...offers,
    },
  });
}

function subjectOf(bookings: number, windows: number): string {
  const counted = [
    ...(bookings > 0 ? [`${bookings} ${bookings === 1 ? 'booking' : 'bookings'}`] : []),
    ...(windows > 0 ? [`${windows} duty ${windows === 1 ? 'window' : 'windows'}`] : []),
  ];
  return `${counted.join(' and ')} ${bookings + windows === 1 ? 'needs' : 'need'}`;
}

function namesOf(needs: readonly Need[]): string {
  return [...new Set(needs.map(({ memberName }) => memberName))].join(', ');
}
