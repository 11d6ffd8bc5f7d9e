import { randomUUID } from 'node:crypto';
import pg from 'pg';
import type { Service } from './service';
import type { Actor, ClubWorld } from './world';

/** A floral source of the club: its id. */
export async function aSource(
  service: Service,
  clubId: string,
  name = `Source ${randomUUID()}`,
): Promise<string> {
  const { id } = await service.prisma.floralSource.create({
    data: { clubId, name, grain: 'fine', sets: true },
  });
  return id;
}

/** Some minutes ago, as a request says it. */
export function minutesAgo(minutes: number): string {
  return new Date(Date.now() - minutes * 60_000).toISOString();
}

export function daysAgo(days: number): string {
  return minutesAgo(days * 1440);
}

export interface LotWishes {
  kind?: 'honey' | 'seed';
  massKg?: number;
  sources?: [id: string, percent: number][];
  countries?: [code: string, percent: number][];
}

/** A body that brings in a lot. */
export function aLotBody(sourceId: string, wishes: LotWishes = {}): Record<string, unknown> {
  const {
    kind = 'honey',
    massKg = 25,
    sources = [[sourceId, 100]],
    countries = [['AT', 100]],
  } = wishes;
  return {
    kind,
    name: `${kind} ${randomUUID().slice(0, 8)}`,
    massKg,
    floralShares: sources.map(([floralSourceId, percent]) => ({ floralSourceId, percent })),
    originShares: countries.map(([countryCode, percent]) => ({ countryCode, percent })),
    origin: 'Apiary behind the mill',
    moisturePercent: 17.4,
  };
}

/** Brings in a lot: its id. */
export async function aLot(
  actor: Actor,
  club: Pick<ClubWorld, 'path'>,
  sourceId: string,
  wishes: LotWishes = {},
): Promise<string> {
  const { body } = await actor.post(`${club.path}/lots`, aLotBody(sourceId, wishes)).expect(201);
  return body.id as string;
}

/** A batch of honey and seed of the actor, planned: its id and those of the two lots. */
export async function aPlannedBatch(
  actor: Actor,
  club: Pick<ClubWorld, 'path'>,
  sourceId: string,
  massKg = 20,
): Promise<{ batchId: string; honeyId: string; seedId: string; path: string }> {
  const honeyId = await aLot(actor, club, sourceId);
  const seedId = await aLot(actor, club, sourceId, { kind: 'seed', massKg: 5 });
  const { body } = await actor
    .post(`${club.path}/batches`, { name: 'Spring', honey: [{ lotId: honeyId, massKg }] })
    .expect(201);
  const batchId = body.id as string;
  return { batchId, honeyId, seedId, path: `${club.path}/batches/${batchId}` };
}

/** The same, with the seed stirred in at that time. */
export async function aSeededBatch(
  actor: Actor,
  club: Pick<ClubWorld, 'path'>,
  sourceId: string,
  at: string,
): ReturnType<typeof aPlannedBatch> {
  const batch = await aPlannedBatch(actor, club, sourceId);
  await actor
    .post(`${batch.path}/steps`, {
      kind: 'seeded',
      at,
      seed: [{ lotId: batch.seedId, massKg: 2 }],
    })
    .expect(201);
  return batch;
}

/** Lots of which the ledger does not close, or whose inputs and movements do not tell the same as its masses. */
export async function lotsOutOfBalance(service: Service): Promise<object[]> {
  return service.database.query(`
    select l.id from lot l
    where l.initial_mass_g <> l.remaining_mass_g + l.used_mass_g + l.lent_mass_g + l.potted_mass_g + l.lost_mass_g
      or exists (
        select from unnest(enum_range(null::movement_kind)) k
        where (select coalesce(sum(v.mass_g), 0) from lot_movement v
            where v.club_id = l.club_id and v.lot_id = l.id and v.kind = k)
          <> case k when 'used' then l.used_mass_g when 'lent' then l.lent_mass_g
            when 'potted' then l.potted_mass_g else l.lost_mass_g end)
      or (select coalesce(sum(i.mass_g), 0) from lot_input i where i.club_id = l.club_id and i.child_id = l.id) <> l.input_mass_g
      or (select coalesce(sum(i.mass_g), 0) from lot_input i where i.club_id = l.club_id and i.parent_id = l.id)
        <> l.used_mass_g + l.lent_mass_g
          - (select coalesce(sum(v.mass_g), 0) from lot_movement v
              where v.club_id = l.club_id and v.lot_id = l.id and v.into_lot_id is null and v.kind in ('used', 'lent'))`);
}

/** How many statements reach the database while a request is answered; one of them finds the caller. */
export async function countStatements(request: () => PromiseLike<unknown>): Promise<number> {
  const query = jest.spyOn(pg.Client.prototype, 'query');
  await request();
  const count = query.mock.calls.length;
  query.mockRestore();
  return count;
}
