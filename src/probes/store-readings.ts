import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

export interface SentReading {
  /** RFC 3339 in UTC. */
  at: string;
  temperatureDeciC: number;
  /** Where in the request it stands, from 0. */
  row: number;
}

interface Outcome {
  stored: number;
  differing: { row: number; at: string; temperatureDeciC: number }[];
  differingCount: number;
}

/**
 * Stores what is not on record yet, in one statement, and answers how many that were. Where another temperature is on record for the same
 * time, it refuses and stores nothing. The caller holds the probe's lock: nobody else stores to it meanwhile.
 */
export async function storeReadings(
  tx: Transaction,
  { clubId, memberId }: ClubCaller,
  probeId: string,
  sent: readonly SentReading[],
): Promise<number> {
  // Arrays in PostgreSQL's own form: three texts, instead of thirty thousand parameters.
  const array = (values: (string | number)[]) => `{${values.join(',')}}`;
  const [outcome] = await tx.$queryRaw<Outcome[]>(Prisma.sql`
    with sent as (
      select * from unnest(
        ${array(sent.map(({ at }) => at))}::timestamptz[],
        ${array(sent.map(({ temperatureDeciC }) => temperatureDeciC))}::int[],
        ${array(sent.map(({ row }) => row))}::int[]) s (at, temperature_deci_c, row)
    ), differing as (
      select s.row, s.at, r.temperature_deci_c from sent s
      join reading r on r.club_id = ${clubId}::uuid and r.probe_id = ${probeId}::uuid and r.at = s.at
      where r.temperature_deci_c <> s.temperature_deci_c
    ), stored as (
      insert into reading (club_id, probe_id, at, temperature_deci_c, recorded_by_id)
      select ${clubId}::uuid, ${probeId}::uuid, at, temperature_deci_c, ${memberId}::uuid from sent
      on conflict do nothing returning 1
    )
    select (select count(*)::int from stored) as stored,
      (select count(*)::int from differing) as "differingCount",
      coalesce((
        select json_agg(json_build_object('row', d.row, 'at', d.at, 'temperatureDeciC', d.temperature_deci_c) order by d.row)
        from (select * from differing order by row limit 100) d), '[]') as differing`);
  if (outcome === undefined) throw new Error('An aggregate has one row.');
  refuseDiffering(outcome);
  return outcome.stored;
}

function refuseDiffering({ differing, differingCount }: Outcome): void {
  const [first] = differing;
  if (first === undefined) return;
  const errors = differing.map(({ row, at, temperatureDeciC }) => ({
    pointer: `#/readings/${row}/temperatureC`,
    detail: `For ${new Date(at).toISOString()}, ${temperatureDeciC / 10} °C is on record.`,
  }));
  const many = differingCount === 1 ? 'One reading differs' : `${differingCount} readings differ`;
  throw new Refusal(
    'reading-differs',
    `${many} from what is on record for the same time, and what was read stays: nothing was stored. Leave out those named, or look whether the file is of another probe.`,
    { errors },
  );
}
