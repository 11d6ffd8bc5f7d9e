import { Injectable } from '@nestjs/common';
import { cautions } from '../core/cautions';
import { seedPerHoney } from '../core/honey/seed-mass';
import { honeyGrain } from '../core/planning/honey-grain';
import { rankSeed, type SeedWish } from '../core/planning/rank-seed';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { gramsOf, kgOf } from '../platform/fields';
import { Prisma } from '../platform/prisma-client/client';
import type { Grain } from '../platform/prisma-client/enums';
import { SEED_PER_HUNDRED_OF_HONEY } from '../reckonings/assumptions';
import { bestInWords, leftOutInWords, method, whyThis, type FitLot } from './fit-words';
import { honeyOfBatch, sourcesOfClub, type HoneyFacts } from './honey-facts';
import type { FittingSeedQuery, WishedSeedQuery } from './seed-shelf.requests';
import type { FittingSeedResponse } from './fitting-seed.responses';
import { ageInDays, toShelfSeed } from './seed-shelf.responses';
import { knownSeed, namesOf, type KnownSeed } from './shelf-lot';
import { isOnShelf, shelfRow, type ShelfRow } from './shelf-rows';
import { sharesOfText } from './wished-shares';

/** What is in more lots takes too long to reckon; those of enough mass and of a grain that will do come first. */
const mostLots = 500;

/** Which seed fits? All seed of the club, ranked by the core, with the reasons in words. */
@Injectable()
export class FittingSeedService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async forBatch(
    caller: ClubCaller,
    batchId: string,
    { seedPercent }: FittingSeedQuery,
  ): Promise<FittingSeedResponse> {
    const [honey] = await this.database.rows<HoneyFacts>(honeyOfBatch(caller.clubId, batchId));
    if (honey === undefined) throw new Refusal('not-found');
    return this.ranked(caller.clubId, honey, null, seedPercent);
  }

  async forWish(caller: ClubCaller, query: WishedSeedQuery): Promise<FittingSeedResponse> {
    const { clubId, memberId } = caller;
    const [club] = await this.database.rows<Pick<HoneyFacts, 'sources'>>(sourcesOfClub(clubId));
    const sources = club?.sources ?? [];
    const honey = {
      memberId,
      honeyMassG: gramsOf(query.honeyMassKg),
      shares: sharesOfText(query.floralShares, sources),
      sources,
      reserved: [],
      isSeeded: false,
    };
    return this.ranked(clubId, honey, query.grain ?? null, query.seedPercent);
  }

  private async ranked(
    clubId: string,
    honey: HoneyFacts,
    coarsest: Grain | null,
    seedPercent: number = SEED_PER_HUNDRED_OF_HONEY,
  ): Promise<FittingSeedResponse> {
    const now = this.clock.now();
    const floralParts = new Map(
      honey.shares.map(({ floralSourceId, part }) => [floralSourceId, part]),
    );
    const wish: SeedWish = {
      massG: Math.ceil(seedPerHoney(honey.honeyMassG, seedPercent).seedMassG),
      honeyGrain: coarsest ?? honeyGrain(floralParts, honey.sources),
      floralParts,
    };
    const [row] = await this.database.rows<ShelfRow>(
      shelfRow(clubId, now, {
        condition: Prisma.sql`true`,
        order: likeliestFirst(wish, honey),
        limit: mostLots,
      }),
    );
    if (row === undefined) throw new Refusal('not-found');
    const seedLots =
      row.lots.length < mostLots ? row.lots.length : await this.countSeedLots(clubId);
    const ranked = rankSeed(
      knownSeed(row).map((seed) => toFitLot(seed, honey)),
      wish,
    );
    const names = namesOf(row);
    return {
      honeyMassKg: kgOf(honey.honeyMassG),
      neededMassKg: kgOf(wish.massG),
      coarsestGrain: wish.honeyGrain,
      items: ranked.map((one, index) => ({
        ...toShelfSeed(one.lot.seed, names, now),
        rank: index + 1,
        fits: one.obstacles.length === 0,
        toBorrow: one.lot.isOwn === false,
        obstacles: [...one.obstacles],
        percentInCommon: one.percentInCommon,
        why: whyThis(one, wish, ageInDays(one.lot.madeAt, now)),
      })),
      seedLots,
      inWords: bestInWords(ranked, honey.isSeeded) + leftOutInWords(seedLots - row.lots.length),
      method,
      cautions: [cautions.gear, cautions.bees],
    };
  }

  private async countSeedLots(clubId: string): Promise<number> {
    const [found] = await this.database.rows<{ count: number }>(Prisma.sql`
      select count(*)::int as count from lot l where l.club_id = ${clubId}::uuid and ${isOnShelf}`);
    return found?.count ?? 0;
  }
}

/** The order of the ranking as far as it can be told before it is reckoned what is in each lot; then one's own and the newest. */
function likeliestFirst(
  { massG, honeyGrain }: SeedWish,
  { memberId, reserved }: HoneyFacts,
): Prisma.Sql {
  const forIt = JSON.stringify(reserved);
  return Prisma.sql`
    l.remaining_mass_g < ${massG}::int + (
      select coalesce(sum(r.mass_g), 0) from batch_seed r where r.club_id = l.club_id and r.lot_id = l.id and r.active
    ) - (
      select coalesce(sum((f->>'massG')::int), 0) from jsonb_array_elements(${forIt}::jsonb) f where f->>'lotId' = l.id::text),
    coalesce(l.grain > ${honeyGrain}::grain, false), l.grain is null, l.holder_id <> ${memberId}::uuid, l.id desc`;
}

function toFitLot(seed: KnownSeed, { memberId, reserved }: HoneyFacts): FitLot {
  const { lot, floral, texture } = seed;
  const forIt = reserved.find(({ lotId }) => lotId === lot.id)?.massG ?? 0;
  return {
    lotId: lot.id,
    freeMassG: lot.remainingMassG - lot.reservedMassG + forIt,
    grain: lot.grain,
    floralParts: new Map([...floral].filter(([key]) => key !== '')),
    madeAt: lot.madeAt,
    textureScore: texture.pooledScore,
    isOwn: lot.holderId === memberId,
    onHold: lot.onHold,
    seed,
  };
}
