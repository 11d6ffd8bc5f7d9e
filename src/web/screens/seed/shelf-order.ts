import type { text } from '../../text';
import type { ShelfSeed } from './seed-queries';

export type ShelfKey = keyof (typeof text)['seed']['orders'];

/** By what the shelf stands in order, and whether the other way round. */
export interface ShelfOrder {
  by: ShelfKey;
  isTurned: boolean;
}

const grains = { fine: 0, medium: 1, coarse: 2 };

/** Each puts first what one looks for first: the youngest, the most, the smoothest. */
const compares: Record<ShelfKey, (a: ShelfSeed, b: ShelfSeed) => number> = {
  age: (a, b) => a.ageDays - b.ageDays,
  free: (a, b) => b.freeMassKg - a.freeMassKg,
  texture: (a, b) => textureOf(b) - textureOf(a),
  generation: (a, b) => a.generation - b.generation,
  grain: (a, b) => grainOf(a) - grainOf(b),
  name: (a, b) => a.name.localeCompare(b.name, undefined, { numeric: true }),
  holder: (a, b) => a.holder.name.localeCompare(b.holder.name),
};

export function inOrder(lots: readonly ShelfSeed[], { by, isTurned }: ShelfOrder): ShelfSeed[] {
  const sorted = [...lots].sort((a, b) => compares[by](a, b) || compares.name(a, b));
  return isTurned ? sorted.reverse() : sorted;
}

/** What no batch tells about stands behind all that is known. */
function textureOf({ texture }: ShelfSeed): number {
  return texture.score === null ? -1 : (texture.pooledScore ?? texture.score);
}

function grainOf({ grain }: ShelfSeed): number {
  return grain === null ? grains.coarse + 1 : grains[grain];
}
