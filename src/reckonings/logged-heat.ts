import {
  LONGEST_GAP_MS,
  meanTemperature,
  type ProbeReading,
} from '../core/readings/mean-temperature';
import { Prisma } from '../platform/prisma-client/client';
import { placedReadings } from '../probes/placed-readings';

/** What a probe in the honey of a batch logged, gathered by quarters of an hour. */
export interface LoggedTemperature {
  probeId: string;
  at: string;
  temperatureC: number;
}

/** So much of the time must be logged before readings are believed rather than the steps (own choice). */
const LEAST_LOGGED_FRACTION = 0.9;

/** As JSON, what probes in a batch logged from its first to its last step of loading, clearing and cooling. `batchId` is SQL. */
export function loggedInBatch(clubId: string, batchId: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`coalesce((
    select json_agg(json_build_object('probeId', q.probe_id, 'at', q.at, 'temperatureC', q.temperature_c) order by q.probe_id, q.at)
    from (
      select r.probe_id, to_timestamp(avg(extract(epoch from r.at))::float8) as at,
        avg(r.temperature_deci_c)::float8 / 10 as temperature_c
      from (
        select min(s.at) as first, max(s.at) as last from batch_step s
        where s.club_id = ${clubId}::uuid and s.batch_id = ${batchId} and s.kind in ('loaded', 'cleared', 'cooled')
      ) warmed
      join (${placedReadings(clubId)}) r on r.batch_id = ${batchId} and r.at between warmed.first and warmed.last
      group by r.probe_id, date_bin('15 minutes', r.at, '2000-01-01T00:00:00Z')
    ) q), '[]')`;
}

/**
 * The temperatures from one moment to another by the probe that logged most of that time, with its first and last temperature held to
 * the ends; null where none logged nearly all of it.
 */
export function loggedBetween(
  fromMs: number,
  untilMs: number,
  logged: readonly LoggedTemperature[],
): { atMs: number; temperatureC: number }[] | null {
  if (fromMs >= untilMs) return null;
  const byProbe = new Map<string, ProbeReading[]>();
  for (const { probeId, at, temperatureC } of logged) {
    const reading = { probeId, atMs: Date.parse(at), temperatureC };
    const others = byProbe.get(probeId);
    if (others === undefined) byProbe.set(probeId, [reading]);
    else others.push(reading);
  }
  let best: { covered: number; readings: ProbeReading[] } | null = null;
  for (const readings of byProbe.values()) {
    const mean = meanTemperature({
      readings,
      fromMs,
      untilMs,
      longestGapMs: LONGEST_GAP_MS,
      leastCoveredFraction: LEAST_LOGGED_FRACTION,
    });
    const covered = mean?.coveredFraction ?? 0;
    if (covered > (best?.covered ?? 0)) best = { covered, readings };
  }
  if (best === null) return null;
  const within = best.readings.filter(({ atMs }) => atMs > fromMs && atMs < untilMs);
  const [first, last] = [best.readings[0], best.readings.at(-1)] as [ProbeReading, ProbeReading];
  return [
    { atMs: fromMs, temperatureC: first.temperatureC },
    ...within.map(({ atMs, temperatureC }) => ({ atMs, temperatureC })),
    { atMs: untilMs, temperatureC: last.temperatureC },
  ];
}
