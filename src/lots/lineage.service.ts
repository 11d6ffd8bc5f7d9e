import { Injectable } from '@nestjs/common';
import { composition } from '../core/lineage/composition';
import type { LotEdge } from '../core/lineage/lot-graph';
import type { Share } from '../core/lineage/share';
import { seedLine } from '../core/lineage/seed-line';
import { ancestorShares, descendantShares, type LotShare } from '../core/lineage/shares';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import type { Prisma } from '../platform/prisma-client/client';
import { downwards, rowsOf, upwards, type LineageRow, type TracedLot } from './lineage-rows';
import type { AncestorsResponse, DescendantsResponse, RelatedLot } from './lineage.responses';
import { makeups, UNKNOWN } from './makeups';
import { sharesOf, shareInKg } from './written-share';

/** A part of the graph of lots, from one lot on. */
export interface Trace {
  lots: ReadonlyMap<string, TracedLot>;
  edges: readonly LotEdge[];
}

export interface LotMakeup {
  floral: { name: string | null; share: Share }[];
  origins: { country: string | null; share: Share }[];
}

export interface WholeLineage {
  lotId: string;
  up: Trace;
  down: Trace;
}

/** Answers what is in a lot and where it went: one statement for the whole graph, the shares in the core. */
@Injectable()
export class LineageService {
  constructor(private readonly database: Database) {}

  async ancestors(caller: ClubCaller, id: string): Promise<AncestorsResponse> {
    const lotId = id.toLowerCase();
    const { lots, edges, stated } = await this.trace(upwards(caller.clubId, lotId), lotId);

    const lot = lots.get(lotId);
    const kinds = new Map([...lots].map(([key, { kind }]) => [key, kind]));
    const line = seedLine(edges, lotId, kinds);
    const floral = composition(edges, lotId, makeups(stated, 'floral'));
    const origin = composition(edges, lotId, makeups(stated, 'origin'));

    const names = new Map(stated.flatMap((one) => one.floral.map(({ key, name }) => [key, name])));
    const { share, shareFraction } = sharesOf(line.firstSeedShare);
    return {
      lotId,
      items: await related(ancestorShares(edges, lotId), lots, () => lot?.initialMassG ?? 0),
      floralComposition: [...floral].map(([key, part]) => ({
        floralSourceId: key === UNKNOWN ? null : key,
        name: names.get(key) ?? null,
        ...sharesOf(part),
      })),
      originComposition: [...origin].map(([key, part]) => ({
        countryCode: key === UNKNOWN ? null : key,
        ...sharesOf(part),
      })),
      generation: line.generation,
      firstSeedShare: share,
      firstSeedShareFraction: shareFraction,
    };
  }

  async descendants(caller: ClubCaller, id: string): Promise<DescendantsResponse> {
    const lotId = id.toLowerCase();
    const { lots, edges } = await this.trace(downwards(caller.clubId, lotId), lotId);
    const shares = descendantShares(edges, lotId);
    return { lotId, items: await related(shares, lots, (lot) => lot.initialMassG) };
  }

  /** The lot, all that is in it and all that it is in, with what went into what: for drawings and tables. */
  async whole(caller: ClubCaller, id: string): Promise<WholeLineage> {
    const lotId = id.toLowerCase();
    const [up, down] = await Promise.all([
      this.trace(upwards(caller.clubId, lotId), lotId),
      this.trace(downwards(caller.clubId, lotId), lotId),
    ]);
    return { lotId, up, down };
  }

  /** What a lot consists of by floral source and by country, exactly; null stands for what is not known. */
  async makeup(caller: ClubCaller, id: string): Promise<LotMakeup> {
    const lotId = id.toLowerCase();
    const { edges, stated } = await this.trace(upwards(caller.clubId, lotId), lotId);
    const names = new Map(stated.flatMap((one) => one.floral.map(({ key, name }) => [key, name])));
    const floral = composition(edges, lotId, makeups(stated, 'floral'));
    const origins = composition(edges, lotId, makeups(stated, 'origin'));
    return {
      floral: [...floral].map(([key, share]) => ({ name: names.get(key) ?? null, share })),
      origins: [...origins].map(([key, share]) => ({
        country: key === UNKNOWN ? null : key,
        share,
      })),
    };
  }

  private async trace(statement: Prisma.Sql, lotId: string) {
    const [row] = await this.database.rows<LineageRow>(statement);
    if (row === undefined) throw new Refusal('not-found');
    const lots = new Map(rowsOf(row.lots).map((lot) => [lot.id, lot]));
    if (!lots.has(lotId)) throw new Refusal('not-found');
    return { lots, edges: rowsOf(row.edges), stated: row.stated };
  }
}

/** Shares of long traces take a moment to write down: others get their turn in between. */
const LOTS_AT_A_TIME = 50;

async function related(
  shares: ReadonlyMap<string, LotShare>,
  lots: ReadonlyMap<string, TracedLot>,
  massGOf: (lot: TracedLot) => number,
): Promise<RelatedLot[]> {
  const items: RelatedLot[] = [];
  for (const [id, { share, nearest, farthest }] of shares) {
    const lot = lots.get(id);
    if (lot === undefined) continue;
    if (items.length % LOTS_AT_A_TIME === LOTS_AT_A_TIME - 1) {
      await new Promise((resolve) => setImmediate(resolve));
    }
    items.push(itemOf(lot, share, massGOf(lot), { nearest, farthest }));
  }
  return items.sort((a, b) => a.nearestSteps - b.nearestSteps || (a.lotId < b.lotId ? -1 : 1));
}

function itemOf(
  lot: TracedLot,
  share: Share,
  massG: number,
  steps: { nearest: number; farthest: number },
): RelatedLot {
  return {
    lotId: lot.id,
    code: lot.code,
    kind: lot.kind,
    name: lot.name,
    holder: { id: lot.holderId, name: lot.holderName },
    ...sharesOf(share),
    massKg: shareInKg(share, massG),
    nearestSteps: steps.nearest,
    farthestSteps: steps.farthest,
  };
}
