import { at } from './at';
import type { CylinderGrid } from './cylinder-grid';

/** The tridiagonal lines of a half step in one direction, eliminated once for many uses. */
export interface LineFactors {
  /** For each cell: how strongly it follows the cell before it, J/K. */
  pull: Float64Array;
  /** The inverse of its pivot. */
  pivot: Float64Array;
  /** What the elimination leaves of its link to the cell after it. */
  link: Float64Array;
}

/** Room for the factors of so many cells. */
export function lineFactors(cells: number): LineFactors {
  return {
    pull: new Float64Array(cells),
    pivot: new Float64Array(cells),
    link: new Float64Array(cells),
  };
}

/** Thomas's elimination of (capacity − seconds · conduction) along the radius. */
export function factorRings(
  factors: LineFactors,
  grid: CylinderGrid,
  capacityJPerK: Float64Array,
  seconds: number,
): void {
  const { rings, layers, outwards, side } = grid;
  for (let ring = 0; ring < rings; ring += 1) {
    for (let layer = 0; layer < layers; layer += 1) {
      const cell = ring * layers + layer;
      const inner = ring === 0 ? 0 : at(outwards, cell - layers);
      const air = ring === rings - 1 ? at(side, layer) : 0;
      const held = at(capacityJPerK, cell) + seconds * (inner + at(outwards, cell) + 7 * air);
      const before = ring === 0 ? 0 : at(factors.link, cell - layers);
      const pull = seconds * (inner + air);
      factors.pull[cell] = pull;
      factors.pivot[cell] = 1 / (held - pull * before);
      factors.link[cell] = seconds * at(outwards, cell) * at(factors.pivot, cell);
    }
  }
}

/** The same along the height. */
export function factorLayers(
  factors: LineFactors,
  grid: CylinderGrid,
  capacityJPerK: Float64Array,
  seconds: number,
): void {
  const { rings, layers, upwards } = grid;
  for (let ring = 0; ring < rings; ring += 1) {
    for (let layer = 0; layer < layers; layer += 1) {
      const cell = ring * layers + layer;
      const lower = layer === 0 ? 0 : at(upwards, cell - 1);
      const top = layer === layers - 1 ? at(grid.top, ring) : 0;
      const bottom = layer === 0 ? at(grid.bottom, ring) : 0;
      const around = lower + at(upwards, cell) + 7 * (top + bottom);
      const before = layer === 0 ? 0 : at(factors.link, cell - 1);
      const pull = seconds * (lower + top);
      factors.pull[cell] = pull;
      factors.pivot[cell] = 1 / (at(capacityJPerK, cell) + seconds * around - pull * before);
      factors.link[cell] = seconds * (at(upwards, cell) + bottom) * at(factors.pivot, cell);
    }
  }
}

/** Solves every line along the radius in place: heat held in, temperatures out. */
export function sweepRings(
  factors: LineFactors,
  grid: CylinderGrid,
  airC: number,
  seconds: number,
  values: Float64Array,
): void {
  const { pull, pivot, link } = factors;
  const { rings, layers } = grid;
  const outermost = (rings - 1) * layers;
  for (let layer = 0; layer < layers; layer += 1) {
    const cell = outermost + layer;
    values[cell] = at(values, cell) + 6 * seconds * at(grid.side, layer) * airC;
    values[layer] = at(values, layer) * at(pivot, layer);
  }
  for (let cell = layers; cell < values.length; cell += 1) {
    const known = at(values, cell) + at(pull, cell) * at(values, cell - layers);
    values[cell] = known * at(pivot, cell);
  }
  for (let cell = outermost - 1; cell >= 0; cell -= 1) {
    values[cell] = at(values, cell) + at(link, cell) * at(values, cell + layers);
  }
}

/**
 * Solves every line along the height in place: heat held in, temperatures out. All columns advance
 * together, layer by layer, because their sums do not wait for each other.
 */
export function sweepLayers(
  factors: LineFactors,
  grid: CylinderGrid,
  airC: number,
  seconds: number,
  values: Float64Array,
): void {
  const { pull, pivot, link } = factors;
  const { rings, layers } = grid;
  for (let ring = 0; ring < rings; ring += 1) {
    const first = ring * layers;
    const last = first + layers - 1;
    values[last] = at(values, last) + 6 * seconds * at(grid.top, ring) * airC;
    const fromAir = 6 * seconds * at(grid.bottom, ring) * airC;
    values[first] = (at(values, first) + fromAir) * at(pivot, first);
  }
  for (let layer = 1; layer < layers; layer += 1) {
    for (let cell = layer; cell < values.length; cell += layers) {
      const known = at(values, cell) + at(pull, cell) * at(values, cell - 1);
      values[cell] = known * at(pivot, cell);
    }
  }
  for (let layer = layers - 2; layer >= 0; layer -= 1) {
    for (let cell = layer; cell < values.length; cell += layers) {
      values[cell] = at(values, cell) + at(link, cell) * at(values, cell + 1);
    }
  }
}
