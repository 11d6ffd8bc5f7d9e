import { composition } from '../core/lineage/composition';
import { fractionToNumber, type Fraction } from '../core/lineage/rational';
import { seedLine } from '../core/lineage/seed-line';
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
  return lots.map((lot) => {
    const line = seedLine(edges, lot.id, kindOf);
    return {
      lot,
      floral: asNumbers(composition(edges, lot.id, floral)),
      origin: asNumbers(composition(edges, lot.id, origin)),
      // Seed is always in a line.
      generation: line.generation ?? 0,
      firstSeedShare: fractionToNumber(line.firstSeedShare),
      texture: textureScore(lot.textures, clubTextures),
    };
  });
}

/** The names of the floral sources that stand in a row. */
export function namesOf({ stated }: ShelfRow): ReadonlyMap<string, string> {
  return new Map(stated.flatMap(({ floral }) => floral.map(({ key, name }) => [key, name])));
}

function asNumbers(parts: ReadonlyMap<string, Fraction>): Map<string, number> {
  return new Map([...parts].map(([key, part]) => [key, fractionToNumber(part)]));
}
