import { Prisma } from '../platform/prisma-client/client';
import type { LotKind } from '../platform/prisma-client/enums';
import { loggedInBatch, type LoggedTemperature } from './logged-heat';
import type { StepTemperature } from './reckoning-row';

export interface LotInLine {
  id: string;
  kind: LotKind;
  batchId: string | null;
}

export interface HeatHistoryRow {
  /** The lot and all that is in it; each after those that are in it. */
  lots: LotInLine[];
  edges: { childId: string; parentId: string; massG: number }[];
  /** Of the batches that made or put by one of these lots. */
  batches: { id: string; steps: StepTemperature[]; logged: LoggedTemperature[] }[];
}

/** The lot, all that is in it, and the temperatures of the batches that they come from: one row. */
export function heatHistoryRow(clubId: string, lotId: string): Prisma.Sql {
  // `offset 0` keeps each look-up by key: how many lots a trace reaches the planner cannot know.
  return Prisma.sql`
    with recursive reached(id) as (
      select ${lotId}::uuid
      union
      select i.parent_id from reached r join lot_input i on i.club_id = ${clubId}::uuid and i.child_id = r.id
    ), known as (
      select l.id, l.kind, l.depth, l.batch_id from reached r
      cross join lateral (select * from lot where club_id = ${clubId}::uuid and id = r.id offset 0) l
    )
    select
      coalesce((
        select json_agg(json_build_object('id', k.id, 'kind', k.kind, 'batchId', k.batch_id) order by k.depth, k.id)
        from known k), '[]') as lots,
      coalesce((
        select json_agg(json_build_object('childId', i.child_id, 'parentId', i.parent_id, 'massG', i.mass_g)
          order by i.child_id, i.parent_id)
        from reached r
        cross join lateral (select * from lot_input where club_id = ${clubId}::uuid and child_id = r.id offset 0) i), '[]') as edges,
      coalesce((
        select json_agg(json_build_object('id', b.id, 'steps', coalesce((
          select json_agg(json_build_object('kind', s.kind, 'at', s.at, 'temperatureDeciC', s.temperature_deci_c) order by s.at, s.kind)
          from batch_step s where s.club_id = ${clubId}::uuid and s.batch_id = b.id), '[]'),
          'logged', ${loggedInBatch(clubId, Prisma.sql`b.id`)}) order by b.id)
        from (select distinct batch_id as id from known where batch_id is not null) b), '[]') as batches`;
}
