import { Prisma } from '../platform/prisma-client/client';
import { troublesOf, type BatchTrouble } from './batch-troubles';
import type { Firmness, SettingState, StepKind, Texture } from '../platform/prisma-client/enums';

export interface StepRow {
  id: string;
  kind: StepKind;
  at: Date | string;
  temperatureDeciC: number | null;
  madeLotId: string | null;
  note: string;
  recordedById: string;
  recordedByName: string;
  recordedAt: Date | string;
}

export interface CheckRow {
  id: string;
  at: Date | string;
  state: SettingState;
  texture: Texture | null;
  firmness: Firmness | null;
  temperatureDeciC: number | null;
  note: string;
  checkedById: string;
  checkedByName: string;
  recordedAt: Date | string;
  /** Null: it counts. */
  struckAt: Date | string | null;
  struckById: string | null;
  struckByName: string | null;
  struckBecause: string;
}

interface LotMass {
  lotId: string;
  name: string;
  massG: number;
}

export interface BatchSummaryRow {
  id: string;
  name: string;
  memberId: string;
  memberName: string;
  note: string;
  createdAt: Date;
  stage: StepKind | 'planned';
  stageAt: Date | null;
  honeyMassG: number;
  creamedLotId: string | null;
  troubles: BatchTrouble[];
}

/** A batch with all that its answer shows. */
export interface BatchRow extends Pick<
  BatchSummaryRow,
  'id' | 'name' | 'memberId' | 'memberName' | 'note' | 'createdAt' | 'stage' | 'troubles'
> {
  honey: LotMass[];
  floralShares: { floralSourceId: string; name: string; percent: number }[];
  seed: LotMass[];
  creamed:
    | (Omit<LotMass, 'massG'> & {
        inputMassG: number;
        initialMassG: number;
        remainingMassG: number;
        usedMassG: number;
        lentMassG: number;
        pottedMassG: number;
        lostMassG: number;
      })
    | null;
  pots: { netMassG: number; count: number }[];
  seedPutBy: LotMass | null;
  steps: StepRow[];
  checks: CheckRow[];
}

/** The batches of a club for which `condition` holds, the newest first; `b` is the batch, `last` its last step. */
export function batchSummaryRows(
  clubId: string,
  now: Date,
  condition: Prisma.Sql,
  limit: number,
): Prisma.Sql {
  return Prisma.sql`
    select b.id, b.name, b.member_id as "memberId", p.name as "memberName", b.note, b.created_at as "createdAt",
      coalesce(last.kind::text, 'planned') as stage, last.at as "stageAt",
      (select coalesce(sum(h.mass_g), 0)::int from batch_honey h
        where h.club_id = b.club_id and h.batch_id = b.id) as "honeyMassG",
      (select l.id from lot l where l.club_id = b.club_id and l.batch_id = b.id and l.kind = 'creamed') as "creamedLotId",
      ${troublesOf(clubId, now)} as troubles
    from batch b
    join member m on m.club_id = b.club_id and m.id = b.member_id
    join person p on p.id = m.person_id
    left join lateral (
      select s.kind, s.at from batch_step s where s.club_id = b.club_id and s.batch_id = b.id
      order by s.kind desc limit 1) last on true
    where b.club_id = ${clubId}::uuid and ${condition}
    order by b.id desc limit ${limit}::int`;
}

/** One batch, with everything about it, in one row. */
export function batchRow(clubId: string, now: Date, batchId: string): Prisma.Sql {
  const ofBatch = (letter: string) =>
    Prisma.raw(`${letter}.club_id = b.club_id and ${letter}.batch_id = b.id`);
  return Prisma.sql`
    select b.id, b.name, b.member_id as "memberId", p.name as "memberName", b.note, b.created_at as "createdAt",
      coalesce(last.kind::text, 'planned') as stage, ${troublesOf(clubId, now)} as troubles,
      coalesce((
        select json_agg(json_build_object('lotId', l.id, 'name', l.name, 'massG', h.mass_g) order by h.mass_g desc, l.id)
        from batch_honey h join lot l on l.club_id = h.club_id and l.id = h.lot_id where ${ofBatch('h')}), '[]') as honey,
      coalesce((
        select json_agg(json_build_object('floralSourceId', q.id, 'name', q.name, 'percent', q.percent) order by q.percent desc, q.id)
        from (
          select f.id, f.name, round(sum(h.mass_g::numeric * s.centi_percent) / (100 * max(whole.mass_g)), 2)::float8 as percent
          from batch_honey h
          join lot_floral_share s on s.club_id = h.club_id and s.lot_id = h.lot_id
          join floral_source f on f.club_id = s.club_id and f.id = s.floral_source_id
          cross join (select sum(mass_g)::numeric as mass_g from batch_honey
            where club_id = ${clubId}::uuid and batch_id = ${batchId}::uuid) whole
          where ${ofBatch('h')} group by f.id, f.name) q), '[]') as "floralShares",
      coalesce((
        select json_agg(json_build_object('lotId', o.id, 'name', o.name, 'massG', i.mass_g) order by i.mass_g desc, o.id)
        from lot l
        join lot_input i on i.club_id = l.club_id and i.child_id = l.id
        join lot o on o.club_id = i.club_id and o.id = i.parent_id and o.kind = 'seed'
        where ${ofBatch('l')} and l.kind = 'creamed'), (
        select json_agg(json_build_object('lotId', o.id, 'name', o.name, 'massG', r.mass_g) order by r.mass_g desc, o.id)
        from batch_seed r join lot o on o.club_id = r.club_id and o.id = r.lot_id where ${ofBatch('r')} and r.active), '[]') as seed,
      (select json_build_object('lotId', l.id, 'name', l.name, 'inputMassG', l.input_mass_g, 'initialMassG', l.initial_mass_g,
          'remainingMassG', l.remaining_mass_g, 'usedMassG', l.used_mass_g, 'lentMassG', l.lent_mass_g,
          'pottedMassG', l.potted_mass_g, 'lostMassG', l.lost_mass_g)
        from lot l where ${ofBatch('l')} and l.kind = 'creamed') as creamed,
      coalesce((
        select json_agg(json_build_object('netMassG', t.net_mass_g, 'count', t.count) order by t.net_mass_g)
        from batch_pots t where ${ofBatch('t')}), '[]') as pots,
      (select json_build_object('lotId', l.id, 'name', l.name, 'massG', l.initial_mass_g)
        from lot l where ${ofBatch('l')} and l.kind = 'seed' order by l.id limit 1) as "seedPutBy",
      coalesce((select json_agg(t order by t.kind::step_kind) from (${stepRows(clubId, batchId, Prisma.empty)}) t), '[]') as steps,
      coalesce((
        select json_agg(t order by t.at, t.id) from (
          ${checkRows(clubId, batchId, Prisma.sql`order by c.at desc, c.id desc limit 200`)}) t), '[]') as checks
    from batch b
    join member m on m.club_id = b.club_id and m.id = b.member_id
    join person p on p.id = m.person_id
    left join lateral (select s.kind from batch_step s where ${ofBatch('s')} order by s.kind desc limit 1) last on true
    where b.club_id = ${clubId}::uuid and b.id = ${batchId}::uuid`;
}

/** The steps of one batch; `s` is the step, `tail` the order and what else narrows it. */
export function stepRows(clubId: string, batchId: string, tail: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`
    select s.id, s.kind::text as kind, s.at, s.temperature_deci_c as "temperatureDeciC", made.id as "madeLotId", s.note,
      s.recorded_by_id as "recordedById", p.name as "recordedByName", s.recorded_at as "recordedAt"
    from batch_step s
    join member m on m.club_id = s.club_id and m.id = s.recorded_by_id
    join person p on p.id = m.person_id
    left join lot made on made.club_id = s.club_id and made.batch_id = s.batch_id
      and made.kind = case s.kind when 'seeded' then 'creamed'::lot_kind when 'potted' then 'seed'::lot_kind end
    where s.club_id = ${clubId}::uuid and s.batch_id = ${batchId}::uuid ${tail}`;
}

/** The setting checks of one batch; `c` is the check, `tail` the order and what else narrows it. */
export function checkRows(clubId: string, batchId: string, tail: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`
    select c.id, c.at, c.state::text as state, c.texture::text as texture, c.firmness::text as firmness,
      c.temperature_deci_c as "temperatureDeciC", c.note, c.checked_by_id as "checkedById", p.name as "checkedByName",
      c.recorded_at as "recordedAt", c.struck_at as "struckAt", c.struck_by_id as "struckById", striker.name as "struckByName",
      c.struck_because as "struckBecause"
    from setting_check c
    join member m on m.club_id = c.club_id and m.id = c.checked_by_id
    join person p on p.id = m.person_id
    left join member sm on sm.club_id = c.club_id and sm.id = c.struck_by_id
    left join person striker on striker.id = sm.person_id
    where c.club_id = ${clubId}::uuid and c.batch_id = ${batchId}::uuid ${tail}`;
}
