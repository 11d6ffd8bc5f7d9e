import { composition } from '../core/lineage/composition';
import { lotGraph, type LotEdge } from '../core/lineage/lot-graph';
import { seedLine } from '../core/lineage/seed-line';
import { shareToNumber, type Share } from '../core/lineage/share';
import { textureScore, type TextureScore } from '../core/seed/texture-score';
import { makeups } from '../lots/makeups';
import type { ShelfLot, ShelfRow } from './shelf-rows';

/** Seed on the shelf, with what is in it and how its batches became. Parts are of the whole, 0 to 1; the key '' stands for what is not known. */
export interface KnownSeed {
  lot: ShelfLot;
  floral: ReadonlyMap<string, number>;
  origin: ReadonlyMap<string, number>;
  generation: number;
  firstSeedShare: number;
  texture: TextureScore;
}

/** All that the shelf tells of each lot, in the order of the row. */
export function knownSeed({ lots, kinds, edges, stated, clubTextures }: ShelfRow): KnownSeed[] {
  const kindOf = new Map(kinds.map(({ id, kind }) => [id, kind]));
  const floral = makeups(stated, 'floral');
  const origin = makeups(stated, 'origin');
  const { inputs } = lotGraph(edges);
  return lots.map((lot) => {
    const above = edgesAbove(lot.id, inputs);
    const line = seedLine(above, lot.id, kindOf);
    return {
      lot,
      floral: asNumbers(composition(above, lot.id, floral)),
      origin: asNumbers(composition(above, lot.id, origin)),
      // Seed is always in a line.
      generation: line.generation ?? 0,
      firstSeedShare: shareToNumber(line.firstSeedShare),
      texture: textureScore(lot.textures, clubTextures),
    };
  });
}

/** What went into a lot and into all its ancestors: of the whole page's that is a small part. */
function edgesAbove(lotId: string, inputs: ReadonlyMap<string, readonly LotEdge[]>): LotEdge[] {
  const above: LotEdge[] = [];
  const met = new Set([lotId]);
  for (const id of met) {
    for (const edge of inputs.get(id) ?? []) {
      above.push(edge);
      met.add(edge.parentId);
    }
  }
  return above;
}

/** The names of the floral sources that stand in a row. */
export function namesOf({ stated }: ShelfRow): ReadonlyMap<string, string> {
  return new Map(stated.flatMap(({ floral }) => floral.map(({ key, name }) => [key, name])));
}

function asNumbers(parts: ReadonlyMap<string, Share>): Map<string, number> {
  return new Map([...parts].map(([key, part]) => [key, shareToNumber(part)]));
}
