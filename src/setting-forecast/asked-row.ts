import { Prisma } from '../platform/prisma-client/client';

export interface PlannedHoney {
  massG: number;
  moistureCentiPercent: number | null;
  /** Epoch milliseconds of its day. */
  extractedAt: number | null;
  shares: { floralSourceId: string; centiPercent: number }[];
}

/** What is on record of a batch before it is seeded. Times are epoch milliseconds. */
export interface BatchRecord {
  isAbandoned: boolean;
  isSeeded: boolean;
  honey: PlannedHoney[];
  /** The first booking of the bench for it. */
  benchAt: number | null;
  /** The middle of the band of its first cool booking. */
  coolMiddleC: number | null;
}

/** What a forecast needs to know of the club, and of the batch asked about. */
export interface AskedRow {
  timeZone: string;
  sources: { id: string; name: string; sets: boolean }[];
  /** Null: the club has no such batch, or none was asked about. */
  batch: BatchRecord | null;
}

/** One row. */
export function askedRow(clubId: string, batchId: string | undefined): Prisma.Sql {
  const club = Prisma.sql`${clubId}::uuid`;
  const ofBatch = (letter: string) =>
    Prisma.raw(`${letter}.club_id = b.club_id and ${letter}.batch_id = b.id`);
  const hasStep = (kind: string) =>
    Prisma.sql`exists (select from batch_step s where ${ofBatch('s')} and s.kind = ${kind}::step_kind)`;
  return Prisma.sql`
    select c.time_zone as "timeZone",
      coalesce((
        select json_agg(json_build_object('id', f.id, 'name', f.name, 'sets', f.sets) order by f.id)
        from floral_source f where f.club_id = ${club}), '[]') as sources,
      (select json_build_object(
        'isAbandoned', ${hasStep('abandoned')},
        'isSeeded', ${hasStep('seeded')},
        'honey', coalesce((
          select json_agg(json_build_object('massG', h.mass_g, 'moistureCentiPercent', l.moisture_centi_percent,
            'extractedAt', (extract(epoch from l.extracted_on::timestamp at time zone 'UTC') * 1000)::float8,
            'shares', coalesce((
              select json_agg(json_build_object('floralSourceId', q.floral_source_id, 'centiPercent', q.centi_percent) order by q.floral_source_id)
              from lot_floral_share q where q.club_id = l.club_id and q.lot_id = l.id), '[]')) order by l.id)
          from batch_honey h join lot l on l.club_id = h.club_id and l.id = h.lot_id where ${ofBatch('h')}), '[]'),
        'benchAt', (select (extract(epoch from min(k.starts_at)) * 1000)::float8 from booking k
          where ${ofBatch('k')} and k.duty = 'bench' and k.active),
        'coolMiddleC', (select (k.min_deci_c + k.max_deci_c) / 20.0 from booking k
          where ${ofBatch('k')} and k.duty = 'cool' and k.active order by k.starts_at, k.id limit 1))
        from batch b where b.club_id = ${club} and b.id = ${batchId ?? null}::uuid) as batch
    from club c where c.id = ${club}`;
}
