import { at } from './at';
import { meltedFraction } from './crystals';
import type { CylinderGrid } from './cylinder-grid';
import type { HoneyHeat } from './honey-heat';
import {
  factorLayers,
  factorRings,
  lineFactors,
  sweepLayers,
  sweepRings,
  type LineFactors,
} from './line-solver';

/** The temperature a melted share stands for, computed back from that share, may be off by this. */
const ROUNDING_K = 1e-9;

/** Temperatures and melted crystals of one pail, cell by cell, and the workings of its next step. */
export interface CylinderField {
  readonly grid: CylinderGrid;
  readonly honey: HoneyHeat;
  readonly temperatureC: Float64Array;
  /** Part of the cell's crystals that has melted, 0 to 1. Never falls: see {@link takeStep}. */
  readonly melted: Float64Array;
  /** Heat that warms the cell by one degree, in the step to come, J/K. */
  readonly capacityJPerK: Float64Array;
  readonly work: {
    /** Temperature at which the cell's next crystal melts; Infinity when none is left. */
    meltsAtC: Float64Array;
    ringFactors: LineFactors;
    layerFactors: LineFactors;
    /** Step length the factors are made for; 0 when a capacity has changed since. */
    factoredForS: number;
    heat: Float64Array;
    between: Float64Array;
    /** One number for each layer. */
    axis: Float64Array;
  };
}

/** A pail of one temperature throughout; `clear` honey has no crystals left, set honey its fill. */
export function uniformField(
  grid: CylinderGrid,
  honey: HoneyHeat,
  start: { temperatureC: number; clear: boolean },
): CylinderField {
  const cells = grid.rings * grid.layers;
  const melted = start.clear ? 1 : meltedFraction(start.temperatureC, honey);
  const field: CylinderField = {
    grid,
    honey,
    temperatureC: new Float64Array(cells).fill(start.temperatureC),
    melted: new Float64Array(cells).fill(melted),
    capacityJPerK: new Float64Array(cells),
    work: {
      meltsAtC: new Float64Array(cells),
      ringFactors: lineFactors(cells),
      layerFactors: lineFactors(cells),
      factoredForS: 0,
      heat: new Float64Array(cells),
      between: new Float64Array(cells),
      axis: new Float64Array(grid.layers),
    },
  };
  for (let cell = 0; cell < cells; cell += 1) foresee(field, cell);
  return field;
}

/**
 * Temperatures after a step in air of one temperature, into `ahead`; the field itself stays.
 *
 * Alternating directions: first implicit along the radius and explicit along the height, then the
 * other way round (Peaceman & Rachford 1955). The implicit parts are weighted a little less and the
 * explicit parts as much more, which takes away error of the grid (Mitchell & Fairweather 1964). With capacities
 * frozen at the start of the step the result is a straight line in the air temperature. The factors
 * of the lines are kept for as long as no cell's capacity and no step length changes.
 */
export function lookAhead(
  field: CylinderField,
  airC: number,
  stepS: number,
  ahead: Float64Array,
): void {
  const { grid, work, temperatureC, capacityJPerK } = field;
  const { heat, between, ringFactors, layerFactors } = work;
  const [lessAlongRadiusS, moreAlongRadiusS] = weights(stepS, grid.ringTimeS);
  const [lessAlongHeightS, moreAlongHeightS] = weights(stepS, grid.layerTimeS);
  if (work.factoredForS !== stepS) {
    factorRings(ringFactors, grid, capacityJPerK, lessAlongRadiusS);
    factorLayers(layerFactors, grid, capacityJPerK, lessAlongHeightS);
    work.factoredForS = stepS;
  }

  heatAlongHeight(field, airC, moreAlongHeightS, heat);
  for (let cell = 0; cell < heat.length; cell += 1) {
    between[cell] = at(capacityJPerK, cell) * at(temperatureC, cell) + at(heat, cell);
  }
  sweepRings(ringFactors, grid, airC, lessAlongRadiusS, between);

  // What the half step took in along the radius it took in over the lesser time; take in the rest.
  const again = moreAlongRadiusS / lessAlongRadiusS;
  for (let cell = 0; cell < heat.length; cell += 1) {
    const held = at(capacityJPerK, cell) * at(between, cell);
    const taken = held - at(capacityJPerK, cell) * at(temperatureC, cell);
    ahead[cell] = held + again * (taken - at(heat, cell));
  }
  sweepLayers(layerFactors, grid, airC, lessAlongHeightS, ahead);
}

/**
 * How long the implicit and the explicit part of a direction count; together the whole step. Shifted
 * by the whole cell time the grid's leading error would vanish inside the honey but grow at the
 * faces; by half of it, both stay below 0.2 % of the first difference (by trial against the series).
 * Never by so much that the implicit part vanishes.
 */
function weights(stepS: number, cellTimeS: number): [lessS: number, moreS: number] {
  const shiftS = Math.min(cellTimeS / 2, 0.4 * stepS);
  return [stepS / 2 - shiftS, stepS / 2 + shiftS];
}

/** Heat the pail takes up if its temperatures become `ahead`, J. */
export function heatTaken(field: CylinderField, ahead: Float64Array): number {
  let heatJ = 0;
  for (let cell = 0; cell < ahead.length; cell += 1) {
    heatJ += at(field.capacityJPerK, cell) * (at(ahead, cell) - at(field.temperatureC, cell));
  }
  return heatJ;
}

/**
 * Gives every cell the heat that brings it to `ahead`, to the joule: up to the temperature at which
 * its next crystal melts it only warms, then it warms and melts, and above the range it only warms.
 * Cooling gives back no melting heat: crystals take days to weeks to come back, a pail cools in one.
 */
export function takeStep(field: CylinderField, ahead: Float64Array): void {
  const { temperatureC, work } = field;
  const { meltsAtC } = work;
  for (let cell = 0; cell < ahead.length; cell += 1) {
    const aheadC = at(ahead, cell);
    const limitC = at(meltsAtC, cell) - ROUNDING_K;
    if (aheadC < limitC && at(temperatureC, cell) < limitC) {
      temperatureC[cell] = aheadC;
    } else {
      meltCell(field, cell, aheadC);
      if (foresee(field, cell)) work.factoredForS = 0;
    }
  }
}

/** Warms, and melts or not, a cell that stands at its melting temperature or will pass it. */
function meltCell(field: CylinderField, cell: number, aheadC: number): void {
  const { grid, honey, temperatureC, melted, capacityJPerK, work } = field;
  const { specificHeatJPerKgK: warming, meltingFromC, meltingToC } = honey;
  const rangeK = meltingToC - meltingFromC;
  const warmingAndMelting = warming + honey.meltingHeatJPerKg / rangeK;

  const fromC = at(temperatureC, cell);
  const meltsAtC = at(work.meltsAtC, cell);
  const heatJPerKg = (at(capacityJPerK, cell) * (aheadC - fromC)) / at(grid.cellMassKg, cell);
  const forMelting = heatJPerKg - warming * (meltsAtC - fromC);
  const toTheEnd = warmingAndMelting * (meltingToC - meltsAtC);
  if (forMelting <= 0) {
    temperatureC[cell] = fromC + heatJPerKg / warming;
  } else if (forMelting < toTheEnd) {
    temperatureC[cell] = meltsAtC + forMelting / warmingAndMelting;
    melted[cell] = (at(temperatureC, cell) - meltingFromC) / rangeK;
  } else {
    temperatureC[cell] = meltingToC + (forMelting - toTheEnd) / warming;
    melted[cell] = 1;
  }
}

/** Net heat into each cell from the layers above and below and the air over some seconds, J. */
function heatAlongHeight(
  field: CylinderField,
  airC: number,
  seconds: number,
  heat: Float64Array,
): void {
  const { grid, temperatureC } = field;
  const { rings, layers } = grid;
  for (let ring = 0; ring < rings; ring += 1) {
    const first = ring * layers;
    const last = first + layers - 1;
    const intoBottom = 6 * airC - 7 * at(temperatureC, first) + at(temperatureC, first + 1);
    const intoTop = 6 * airC - 7 * at(temperatureC, last) + at(temperatureC, last - 1);
    let fromBelow = at(grid.bottom, ring) * intoBottom;
    for (let cell = first; cell < last; cell += 1) {
      const difference = at(temperatureC, cell) - at(temperatureC, cell + 1);
      const toAbove = at(grid.upwards, cell) * difference;
      heat[cell] = seconds * (fromBelow - toAbove);
      fromBelow = toAbove;
    }
    heat[last] = seconds * (fromBelow + at(grid.top, ring) * intoTop);
  }
}

/**
 * Settles when a cell's next crystal melts, and so its capacity for the step to come: if that is due
 * now, the cell melts while it warms. Did the capacity change?
 */
function foresee(field: CylinderField, cell: number): boolean {
  const { grid, honey, temperatureC, melted, capacityJPerK, work } = field;
  const rangeK = honey.meltingToC - honey.meltingFromC;
  const part = at(melted, cell);
  work.meltsAtC[cell] = part < 1 ? honey.meltingFromC + part * rangeK : Infinity;

  const due = at(temperatureC, cell) >= at(work.meltsAtC, cell) - ROUNDING_K;
  const melting = due ? honey.meltingHeatJPerKg / rangeK : 0;
  const before = at(capacityJPerK, cell);
  capacityJPerK[cell] = at(grid.cellMassKg, cell) * (honey.specificHeatJPerKgK + melting);
  return at(capacityJPerK, cell) !== before;
}
