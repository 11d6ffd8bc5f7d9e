import { Refusal } from '../core/refusal';
import type { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { parseSeededBatches, type SeededBatch, type SeededBatchText } from './seeded-batch';
import { readingMeans } from './reading-means';

/** Which of the club's seeded batches; all of them where nothing narrows it. */
export interface WantedBatches {
  /** Seeded then or later, */
  from?: Date | undefined;
  /** and before. */
  until?: Date | undefined;
  batchIds?: readonly string[] | undefined;
  /** Whether the setting temperature is asked for: it costs the reading of every thermometer. */
  withTemperature: boolean;
}

/** The club's seeded batches, in order of seeding. */
export async function seededBatches(
  database: Database,
  clubId: string,
  wanted: WantedBatches,
): Promise<SeededBatch[]> {
  return parseSeededBatches(await seededBatchText(database, clubId, wanted));
}

/** The same as the database writes it, to be read elsewhere or not at all. One statement. */
export async function seededBatchText(
  database: Database,
  clubId: string,
  wanted: WantedBatches,
): Promise<SeededBatchText> {
  const [row] = await database.rows<SeededBatchText>(seededBatchRows(clubId, wanted));
  if (row === undefined) throw new Refusal('not-found');
  return row;
}

/**
 * One row: the batches as JSON, and the club's time zone. A look at the moment of seeding tells nothing and is left out.
 *
 * The seed line goes from the seed lot with the greatest mass to its heaviest input that is seed or creamed honey, and so on until one
 * has no such input: that lot began the line.
 *
 * A batch stands in a station while it sets: from shelved (where not filed: seeded) until set (where not seen set: its last look; where
 * nobody looked: without end).
 */
export function seededBatchRows(clubId: string, wanted: WantedBatches): Prisma.Sql {
  const { from, until, batchIds, withTemperature } = wanted;
  const club = Prisma.sql`${clubId}::uuid`;
  return Prisma.sql`
    with recursive seeded as (
      select batch_id, at from batch_step
      where club_id = ${club} and kind = 'seeded'
        and at >= coalesce(${from?.toISOString() ?? null}::timestamptz, '-infinity')
        and at < coalesce(${until?.toISOString() ?? null}::timestamptz, 'infinity')
        and (${batchIds === undefined}::boolean or batch_id = any(${[...(batchIds ?? [])]}::uuid[]))
    ),
    input as materialized (
      select s.batch_id, s.at as seeded_at, o.id as lot_id, i.mass_g, o.kind, o.moisture_centi_percent, o.extracted_on, o.grain
      from seeded s
      join lot made on made.club_id = ${club} and made.batch_id = s.batch_id and made.kind = 'creamed'
      join lot_input i on i.club_id = made.club_id and i.child_id = made.id
      join lot o on o.club_id = i.club_id and o.id = i.parent_id
    ),
    blend as (
      select batch_id,
        sum(mass_g) filter (where kind = 'honey') as honey_g,
        sum(mass_g) filter (where kind = 'seed') as seed_g,
        sum(mass_g::bigint * moisture_centi_percent) filter (where kind = 'honey')::float8
          / nullif(sum(mass_g) filter (where kind = 'honey' and moisture_centi_percent is not null), 0) / 100 as water_percent,
        sum(mass_g * greatest(0, extract(epoch from seeded_at - (extracted_on::timestamp at time zone 'UTC')) / 86400)::float8)
          filter (where kind = 'honey' and extracted_on is not null)
          / nullif(sum(mass_g) filter (where kind = 'honey' and extracted_on is not null), 0) as age_days
      from input group by batch_id
    ),
    dominant as (
      select h.batch_id, s.floral_source_id from input h
      join blend b on b.batch_id = h.batch_id
      join lot_floral_share s on s.club_id = ${club} and s.lot_id = h.lot_id
      where h.kind = 'honey'
      group by h.batch_id, s.floral_source_id, b.honey_g
      having 2 * sum(h.mass_g::bigint * s.centi_percent) > 10000 * b.honey_g
    ),
    main_seed as (
      select distinct on (batch_id) batch_id, lot_id, grain from input where kind = 'seed'
      order by batch_id, mass_g desc, lot_id
    ),
    reached(lot_id, parent_id) as (
      select m.lot_id, p.parent_id from (select distinct lot_id from main_seed) m left join lateral (${heaviestSeed(club, Prisma.sql`m.lot_id`)}) p on true
      union
      select r.parent_id, p.parent_id from reached r left join lateral (${heaviestSeed(club, Prisma.sql`r.parent_id`)}) p on true where r.parent_id is not null
    ),
    line(lot_id, first_id) as (
      select lot_id, lot_id from reached where parent_id is null
      union all
      select r.lot_id, l.first_id from line l join reached r on r.parent_id = l.lot_id
    ),
    looks as (
      select c.batch_id, max(c.at) as last_at,
        json_agg(json_build_object('at', (extract(epoch from c.at) * 1000)::float8, 'state', c.state) order by c.at, c.id) as checks
      from seeded s
      join setting_check c on c.club_id = ${club} and c.batch_id = s.batch_id and c.at > s.at and c.struck_at is null
      group by c.batch_id
    ),
    stand as materialized (
      select s.batch_id, coalesce(shelved.at, s.at) as since, coalesce(done.at, looks.last_at) as until
      from seeded s
      left join looks on looks.batch_id = s.batch_id
      left join batch_step shelved on shelved.club_id = ${club} and shelved.batch_id = s.batch_id and shelved.kind = 'shelved'
      left join batch_step done on done.club_id = ${club} and done.batch_id = s.batch_id and done.kind = 'set'
    ),
    cool as (
      select t.batch_id, b.station_id, (b.min_deci_c + b.max_deci_c) / 20.0 as middle_c,
        extract(epoch from least(b.ends_at, coalesce(t.until, 'infinity')) - greatest(b.starts_at, t.since)) as seconds
      from stand t
      join booking b on b.club_id = ${club} and b.batch_id = t.batch_id and b.duty = 'cool' and b.active
        and b.ends_at > t.since and b.starts_at < coalesce(t.until, 'infinity')
    ),
    stood as materialized (
      select distinct on (batch_id) batch_id, station_id, middle_c from (
        select batch_id, station_id, middle_c, seconds, sum(seconds) over (partition by batch_id, station_id) as station_seconds from cool
      ) c order by batch_id, station_seconds desc, station_id, seconds desc
    )
    ${withTemperature ? readingMeans(club) : Prisma.empty},
    whole as (
      select s.at, s.batch_id as "batchId", (extract(epoch from s.at) * 1000)::float8 as "seededAt",
        exists (select from batch_step a
          where a.club_id = ${club} and a.batch_id = s.batch_id and a.kind = 'abandoned') as "isAbandoned",
        d.floral_source_id as "floralSourceId", f.name as "floralSourceName", coalesce(looks.checks, '[]') as checks,
        coalesce(b.seed_g::float8 / nullif(coalesce(b.honey_g, 0) + b.seed_g, 0), 0) as "seedFraction", m.grain as "seedGrain",
        b.water_percent as "waterPercent", b.age_days as "honeyAgeDays", n.first_id as "seedLineId", first.name as "seedLineName",
        o.station_id as "stationId", r.name as "stationName",
        ${withTemperature ? Prisma.sql`coalesce(in_honey.mean_c, in_station.mean_c)` : Prisma.sql`null::float8`} as "readingsMeanC",
        ${withTemperature ? Prisma.sql`o.middle_c` : Prisma.sql`null::float8`} as "bandMiddleC"
      from seeded s
      left join blend b on b.batch_id = s.batch_id
      left join dominant d on d.batch_id = s.batch_id
      left join floral_source f on f.club_id = ${club} and f.id = d.floral_source_id
      left join main_seed m on m.batch_id = s.batch_id
      left join line n on n.lot_id = m.lot_id
      left join lot first on first.club_id = ${club} and first.id = n.first_id
      left join looks on looks.batch_id = s.batch_id
      left join stood o on o.batch_id = s.batch_id
      left join station r on r.club_id = ${club} and r.id = o.station_id
      ${
        withTemperature
          ? Prisma.sql`
      left join reading_mean in_honey on in_honey.batch_id = s.batch_id and in_honey.place_id = s.batch_id
      left join reading_mean in_station on in_station.batch_id = s.batch_id and in_station.place_id = o.station_id`
          : Prisma.empty
      }
    )
    select c.time_zone as "timeZone",
      (select coalesce(json_agg(to_jsonb(w) - 'at' order by w.at, w."batchId"), '[]')::text from whole w) as batches
    from club c where c.id = ${club}`;
}

/** The heaviest input of a lot that is seed or creamed honey. */
function heaviestSeed(club: Prisma.Sql, lotId: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`
    select i.parent_id from lot_input i
    join lot p on p.club_id = i.club_id and p.id = i.parent_id and p.kind <> 'honey'
    where i.club_id = ${club} and i.child_id = ${lotId}
    order by i.mass_g desc, i.parent_id limit 1`;
}
