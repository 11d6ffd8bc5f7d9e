import { Prisma } from '../platform/prisma-client/client';
import type { Grain, StepKind } from '../platform/prisma-client/enums';
import { loggedInBatch, type LoggedTemperature } from './logged-heat';

export interface HoneyOfBatch {
  lotId: string;
  name: string;
  massG: number;
  moistureCentiPercent: number | null;
}

export interface SourceOfBatch {
  floralSourceId: string;
  name: string;
  grain: Grain;
  sets: boolean;
  /** Of the mass of the honey. */
  sharePercent: number;
}

export interface StepTemperature {
  kind: StepKind;
  at: string;
  temperatureDeciC: number | null;
}

export interface WarmingBooking {
  id: string;
  stationId: string;
  minDeciC: number;
  maxDeciC: number;
  startsAt: string;
  endsAt: string;
}

/** What a batch is reckoned from. */
export interface ReckoningRow {
  batchId: string;
  stage: StepKind | 'planned';
  creamedLotId: string | null;
  honey: HoneyOfBatch[];
  sources: SourceOfBatch[];
  seed: { massG: number; grain: Grain | null }[];
  steps: StepTemperature[];
  logged: LoggedTemperature[];
  /** The longest first. */
  warmings: WarmingBooking[];
}

/** One batch with everything that its reckoning needs, in one row. */
export function reckoningRow(clubId: string, batchId: string): Prisma.Sql {
  const ofBatch = (letter: string) =>
    Prisma.raw(`${letter}.club_id = b.club_id and ${letter}.batch_id = b.id`);
  return Prisma.sql`
    select b.id as "batchId",
      coalesce((select s.kind::text from batch_step s where ${ofBatch('s')} order by s.kind desc limit 1), 'planned') as stage,
      (select l.id from lot l where ${ofBatch('l')} and l.kind = 'creamed') as "creamedLotId",
      coalesce((
        select json_agg(json_build_object('lotId', l.id, 'name', l.name, 'massG', h.mass_g,
          'moistureCentiPercent', l.moisture_centi_percent) order by h.mass_g desc, l.id)
        from batch_honey h join lot l on l.club_id = h.club_id and l.id = h.lot_id where ${ofBatch('h')}), '[]') as honey,
      coalesce((
        select json_agg(json_build_object('floralSourceId', q.id, 'name', q.name, 'grain', q.grain, 'sets', q.sets,
          'sharePercent', q.percent) order by q.percent desc, q.id)
        from (
          select f.id, f.name, f.grain, f.sets,
            (sum(h.mass_g::numeric * s.centi_percent) / (100 * max(whole.mass_g)))::float8 as percent
          from batch_honey h
          join lot_floral_share s on s.club_id = h.club_id and s.lot_id = h.lot_id
          join floral_source f on f.club_id = s.club_id and f.id = s.floral_source_id
          cross join (select sum(mass_g)::numeric as mass_g from batch_honey
            where club_id = ${clubId}::uuid and batch_id = ${batchId}::uuid) whole
          where ${ofBatch('h')} group by f.id, f.name, f.grain, f.sets) q), '[]') as sources,
      coalesce((
        select json_agg(json_build_object('massG', i.mass_g, 'grain', o.grain) order by i.mass_g desc, o.id)
        from lot l
        join lot_input i on i.club_id = l.club_id and i.child_id = l.id
        join lot o on o.club_id = i.club_id and o.id = i.parent_id and o.kind = 'seed'
        where ${ofBatch('l')} and l.kind = 'creamed'), '[]') as seed,
      coalesce((
        select json_agg(json_build_object('kind', s.kind, 'at', s.at, 'temperatureDeciC', s.temperature_deci_c) order by s.at, s.kind)
        from batch_step s where ${ofBatch('s')}), '[]') as steps,
      ${loggedInBatch(clubId, Prisma.sql`b.id`)} as logged,
      coalesce((
        select json_agg(json_build_object('id', k.id, 'stationId', k.station_id, 'minDeciC', k.min_deci_c, 'maxDeciC', k.max_deci_c,
          'startsAt', k.starts_at, 'endsAt', k.ends_at) order by k.ends_at - k.starts_at desc, k.starts_at, k.id)
        from booking k where ${ofBatch('k')} and k.duty = 'warm' and k.active), '[]') as warmings
    from batch b
    where b.club_id = ${clubId}::uuid and b.id = ${batchId}::uuid`;
}
