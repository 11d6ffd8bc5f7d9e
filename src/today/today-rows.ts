import type { BatchStepKind } from '../core/batches/next-steps';
import { Prisma } from '../platform/prisma-client/client';

/** Times are epoch milliseconds. */
export interface TodayBooking {
  id: string;
  duty: 'warm' | 'cool' | 'bench';
  stationName: string;
  memberId: string;
  memberName: string;
  places: number[];
  startsAt: number;
  endsAt: number;
  arrivedAt: number | null;
  clearedAt: number | null;
}

export interface TodayStep {
  id: string;
  kind: BatchStepKind;
  at: number;
  recordedAt: number;
  recordedById: string;
}

export interface TodayBatch {
  id: string;
  name: string;
  memberId: string;
  memberName: string;
  steps: TodayStep[];
  bookings: TodayBooking[];
  /** The last look that counts. */
  lastLookAt: number | null;
  /** Looks just filed. */
  newLooks: { id: string; recordedAt: number; checkedById: string }[];
  reservedSeed: { lotId: string; massG: number }[];
}

export interface TodayLoan {
  id: string;
  lenderId: string;
  lenderName: string;
  borrowerId: string;
  borrowerName: string;
  lotName: string;
  owedMassG: number;
  at: number;
  /** The start of the day after the due day, by the club’s clock. */
  lateFrom: number;
}

export interface TodayRow {
  timeZone: string;
  /** Those that something may be done with, the oldest first. */
  batches: TodayBatch[];
  /** Without a batch, with honey that nobody said is gone. */
  bookings: TodayBooking[];
  /** Those of which something is still owed. */
  loans: TodayLoan[];
}

/** No club has that many at a time, but for batches that nobody looks at any more: the newest are told. */
const mostBatches = 300;

/**
 * All that bears on what is to be done, in one row: of one member, or of the whole club (`memberId` null). A batch is in it until its honey
 * has set or was given up, its pots are on record and its places are clear.
 */
export function todayRow(
  clubId: string,
  memberId: string | null,
  now: Date,
  undoFrom: Date,
): Prisma.Sql {
  const club = Prisma.sql`${clubId}::uuid`;
  const whose = (column: string) =>
    memberId === null ? Prisma.sql`true` : Prisma.sql`${Prisma.raw(column)} = ${memberId}::uuid`;
  return Prisma.sql`
    select c.time_zone as "timeZone",
      coalesce((select json_agg(t order by t.id) from (
        select b.id, b.name, b.member_id as "memberId", p.name as "memberName",
          coalesce((select json_agg(json_build_object('id', s.id, 'kind', s.kind, 'at', ${ms('s.at')}, 'recordedAt', ${ms('s.recorded_at')},
            'recordedById', s.recorded_by_id) order by s.kind)
            from batch_step s where s.club_id = b.club_id and s.batch_id = b.id), '[]') as steps,
          coalesce((select json_agg(${bookingJson} order by k.starts_at, k.id) from ${bookingTables}
            where k.club_id = b.club_id and k.batch_id = b.id and k.active), '[]') as bookings,
          (select ${ms('max(x.at)')} from setting_check x
            where x.club_id = b.club_id and x.batch_id = b.id and x.struck_at is null) as "lastLookAt",
          coalesce((select json_agg(json_build_object('id', x.id, 'recordedAt', ${ms('x.recorded_at')}, 'checkedById', x.checked_by_id) order by x.id)
            from setting_check x where x.club_id = b.club_id and x.batch_id = b.id and x.struck_at is null
              and x.recorded_at > ${undoFrom}), '[]') as "newLooks",
          coalesce((select json_agg(json_build_object('lotId', r.lot_id, 'massG', r.mass_g) order by r.lot_id)
            from batch_seed r where r.club_id = b.club_id and r.batch_id = b.id and r.active), '[]') as "reservedSeed"
        from batch b
        join member m on m.club_id = b.club_id and m.id = b.member_id
        join person p on p.id = m.person_id
        where b.club_id = ${club} and ${whose('b.member_id')} and (
          not exists (select from batch_step s where s.club_id = b.club_id and s.batch_id = b.id and s.kind in ('set', 'abandoned'))
          or (exists (select from batch_step s where s.club_id = b.club_id and s.batch_id = b.id and s.kind = 'seeded')
            and not exists (select from batch_step s where s.club_id = b.club_id and s.batch_id = b.id and s.kind in ('potted', 'abandoned')))
          or exists (select from batch_step s where s.club_id = b.club_id and s.batch_id = b.id and s.recorded_at > ${undoFrom})
          or exists (select from booking k where k.club_id = b.club_id and k.batch_id = b.id and k.active
            and (k.ends_at > ${now} or (k.arrived_at is not null and k.cleared_at is null))))
        order by b.id desc limit ${mostBatches}::int) t), '[]') as batches,
      coalesce((select json_agg(${bookingJson} order by k.ends_at, k.id) from ${bookingTables}
        where k.club_id = ${club} and k.batch_id is null and k.active and k.ends_at <= ${now}
          and k.arrived_at is not null and k.cleared_at is null and ${whose('k.member_id')}), '[]') as bookings,
      coalesce((select json_agg(json_build_object('id', n.id, 'lenderId', n.lender_id, 'lenderName', lp.name, 'borrowerId', n.borrower_id,
          'borrowerName', bp.name, 'lotName', f.name, 'owedMassG', n.mass_g - n.returned_mass_g - n.forgiven_mass_g, 'at', ${ms('n.lent_at')},
          'lateFrom', ${ms('(n.due_on + 1)::timestamp at time zone c.time_zone')}) order by n.lent_at, n.id)
        from loan n
        join member lm on lm.club_id = n.club_id and lm.id = n.lender_id
        join person lp on lp.id = lm.person_id
        join member bm on bm.club_id = n.club_id and bm.id = n.borrower_id
        join person bp on bp.id = bm.person_id
        join lot f on f.club_id = n.club_id and f.id = n.from_lot_id
        where n.club_id = ${club} and n.state = 'lent' and n.due_on is not null and ${whose('n.borrower_id')}), '[]') as loans
    from club c where c.id = ${club}`;
}

function ms(time: string): Prisma.Sql {
  return Prisma.raw(`round(extract(epoch from ${time}) * 1000)::float8`);
}

const bookingTables = Prisma.sql`booking k
  join station w on w.club_id = k.club_id and w.id = k.station_id
  join member km on km.club_id = k.club_id and km.id = k.member_id
  join person kp on kp.id = km.person_id`;

const bookingJson = Prisma.sql`json_build_object('id', k.id, 'duty', k.duty, 'stationName', w.name, 'memberId', k.member_id,
  'memberName', kp.name, 'startsAt', ${ms('k.starts_at')}, 'endsAt', ${ms('k.ends_at')},
  'arrivedAt', ${ms('k.arrived_at')}, 'clearedAt', ${ms('k.cleared_at')},
  'places', (select coalesce(json_agg(l.number order by l.number), '[]') from booking_place h
    join place l on l.club_id = h.club_id and l.id = h.place_id where h.club_id = k.club_id and h.booking_id = k.id))`;
