import { at } from './at';
import { heatDamage, type HeatDamage } from './keeping';
import { historyOfReadings, type History } from './temperature-history';
import type { GroupResult, PailSample } from './warming-progress';

export interface PailDamage {
  /** Of a place that is always the warmest: at the rim while warming. Never understated. */
  worst: HeatDamage;
  /** Of the cell that lost the least diastase. */
  best: HeatDamage;
  /** Of the whole pail stirred together: by mass, not at the mean temperature. */
  mean: HeatDamage;
}

/**
 * What did a warming cost the honey at the edge of the pail, at its best place, and on the whole?
 *
 * The history of each cell as kept with the samples of a reckoning (`keepCells`), and of the warmest
 * point, each by {@link heatDamage}.
 * Range: samples of one warming, −40 to 80 °C. Fewer than two samples are too few: undefined.
 *
 * @throws RangeError if the cells were not kept, or above 80 °C.
 */
export function pailDamage(
  pail: Pick<GroupResult, 'samples' | 'cellShare'>,
): PailDamage | undefined {
  const { samples, cellShare } = pail;
  if (samples.length < 2) return undefined;
  const cells = Array.from(cellShare, (share, cell) => ({
    share,
    damage: heatDamage(historyOf(pail, (sample) => cellOf(sample, cell))),
  }));
  const mean = (value: (damage: HeatDamage) => number) =>
    cells.reduce((sum, { share, damage }) => sum + share * value(damage), 0);
  const worst = worstDamage(pail);
  const best = cells
    .map(({ damage }) => damage)
    .reduce((kept, damage) => (damage.diastaseLeft > kept.diastaseLeft ? damage : kept), worst);
  return {
    worst,
    best,
    mean: {
      hours: worst.hours,
      hoursBelowRange: mean((damage) => damage.hoursBelowRange),
      gapHours: 0,
      hmfGainMgPerKg: {
        least: mean((damage) => damage.hmfGainMgPerKg.least),
        likely: mean((damage) => damage.hmfGainMgPerKg.likely),
        most: mean((damage) => damage.hmfGainMgPerKg.most),
      },
      diastaseLeft: mean((damage) => damage.diastaseLeft),
      invertaseLeft: mean((damage) => damage.invertaseLeft),
    },
  };
}

/**
 * The worst of {@link pailDamage} alone, without the cells, for many trials in a row.
 *
 * @throws RangeError above 80 °C.
 */
export function worstDamage(pail: Pick<GroupResult, 'samples'>): HeatDamage {
  return heatDamage(historyOf(pail, ({ warmestC }) => warmestC));
}

function historyOf(
  { samples }: Pick<GroupResult, 'samples'>,
  temperatureOf: (sample: PailSample) => number,
): History {
  const readings = samples.map((sample) => ({
    atHours: sample.atHours,
    temperatureC: temperatureOf(sample),
  }));
  return historyOfReadings(readings, Infinity);
}

function cellOf({ cellsC }: PailSample, cell: number): number {
  if (!cellsC) throw new RangeError('cellsC must be kept with every sample: ask for keepCells');
  return at(cellsC, cell);
}
