import { Prisma } from '../platform/prisma-client/client';

export interface ReadingsWanted {
  from: Date | null;
  until: Date | null;
  /** Null: each reading by itself. */
  everyMinutes: number | null;
  /** The last row of the page before. */
  after: { at: string; probeId: string } | null;
  limit: number;
}

/** The readings of a source of rows (probe_id, at, temperature_deci_c) in the order of their times. */
export function readingsQuery(source: Prisma.Sql, wanted: ReadingsWanted): Prisma.Sql {
  return wanted.everyMinutes === null
    ? eachReading(source, wanted)
    : gathered(source, wanted, wanted.everyMinutes);
}

function eachReading(
  source: Prisma.Sql,
  { from, until, after, limit }: ReadingsWanted,
): Prisma.Sql {
  return Prisma.sql`
    select probe_id as "probeId", at, temperature_deci_c as "meanDeciC", temperature_deci_c as "minDeciC",
      temperature_deci_c as "maxDeciC", 1 as readings
    from (${source}) r
    where at >= ${since(from, after)} and at < coalesce(${until}::timestamptz, 'infinity')
      and (at, probe_id) > ${beyond(after)}
    order by at, probe_id limit ${limit}`;
}

function gathered(
  source: Prisma.Sql,
  { from, until, after, limit }: ReadingsWanted,
  everyMinutes: number,
): Prisma.Sql {
  return Prisma.sql`
    select * from (
      select probe_id as "probeId",
        date_bin(make_interval(mins => ${everyMinutes}::int), at, '2000-01-01T00:00:00Z'::timestamptz) as at,
        avg(temperature_deci_c)::float8 as "meanDeciC", min(temperature_deci_c) as "minDeciC",
        max(temperature_deci_c) as "maxDeciC", count(*)::int as readings
      from (${source}) r
      where at >= ${since(from, after)} and at < coalesce(${until}::timestamptz, 'infinity')
      group by 1, 2) g
    where (at, "probeId") > ${beyond(after)}
    order by at, "probeId" limit ${limit}`;
}

/** Written so that it is a range of the key whatever is null. */
function since(from: Date | null, after: ReadingsWanted['after']): Prisma.Sql {
  return Prisma.sql`greatest(
    coalesce(${from}::timestamptz, '-infinity'), coalesce(${after?.at ?? null}::timestamptz, '-infinity'))`;
}

const lowestId = '00000000-0000-0000-0000-000000000000';

function beyond(after: ReadingsWanted['after']): Prisma.Sql {
  return Prisma.sql`(${after?.at ?? '-infinity'}::timestamptz, ${after?.probeId ?? lowestId}::uuid)`;
}
