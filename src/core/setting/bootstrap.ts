import type { RandomSource } from '../random';
import { distinctObservations } from './distinct-observations';
import type { SettingObservation } from './observation';
import { fitDistinct, type TurnbullFit } from './turnbull';

/**
 * What a statistic would be for `replicates` other sets of batches, each drawn with replacement
 * from those observed and as many as those (weights counted).
 *
 * Works for at least one observation and one replicate. Throws RangeError otherwise, and for an
 * observation that cannot be true.
 * Source: B. Efron, "Censored data and the bootstrap", J. Amer. Statist. Assoc. 76 (1981).
 */
export function bootstrapStatistic<T>(
  observations: readonly SettingObservation[],
  replicates: number,
  random: RandomSource,
  statistic: (fit: TurnbullFit) => T,
): T[] {
  if (!Number.isSafeInteger(replicates) || replicates < 1) {
    throw new RangeError(`replicates must be a whole number from 1 up, got ${replicates}`);
  }
  const rows = distinctObservations(observations);
  const batches = rows.flatMap((row) => new Array<typeof row>(row.weight).fill(row));
  if (batches.length === 0) throw new RangeError('observations must hold at least one');

  const answers: T[] = [];
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const drawn = new Map<(typeof rows)[number], number>();
    for (let draw = 0; draw < batches.length; draw += 1) {
      const row = batches[Math.floor(random() * batches.length)];
      if (row === undefined) throw new RangeError('random must give numbers from 0 to below 1');
      drawn.set(row, (drawn.get(row) ?? 0) + 1);
    }
    const resample = Array.from(drawn, ([row, weight]) => ({ ...row, weight }));
    answers.push(statistic(fitDistinct(resample)));
  }
  return answers;
}

/**
 * The value below which the share `fraction` of the values lies, Infinity counting as a value.
 * Formula: with the n values in order, the value at position (n - 1) x fraction counted from 0,
 * in proportion between neighbours (type 7 of R. J. Hyndman and Y. Fan, "Sample quantiles in
 * statistical packages", Amer. Statist. 50 (1996)); Infinity if the later neighbour is.
 * Works for at least one value, none NaN, and fractions from 0 to 1. Throws RangeError otherwise.
 */
export function percentile(values: readonly number[], fraction: number): number {
  if (!(fraction >= 0 && fraction <= 1)) {
    throw new RangeError(`fraction must be from 0 to 1, got ${fraction}`);
  }
  const ordered = Float64Array.from(values).sort();
  const position = (ordered.length - 1) * fraction;
  const below = ordered[Math.floor(position)];
  const above = ordered[Math.ceil(position)];
  if (below === undefined || above === undefined || values.some(Number.isNaN)) {
    throw new RangeError('values must hold at least one number, and no NaN');
  }
  if (below === above) return below;
  return below + (position - Math.floor(position)) * (above - below);
}
