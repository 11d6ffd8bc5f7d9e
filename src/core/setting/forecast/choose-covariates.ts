import type { BatchTraits, ForecastBatch } from './forecast-batch';

export type TraitName = keyof BatchTraits;

export type CovariateChoice = {
  trait: TraitName;
  used: boolean;
  /** How many of the batches it is known of. */
  known: number;
  why: 'used' | 'not known of this batch' | 'known of too few batches' | 'the same in all batches';
  /** From the least to the most among the batches, of a number that is used. */
  range: { from: number; to: number } | null;
};

const TRAITS: readonly TraitName[] = [
  'temperatureC',
  'seedPercent',
  'seedGrain',
  'moisturePercent',
  'honeyAgeDays',
];

/** With fewer batches the effect of a trait is chance. */
const FEWEST_BATCHES = 10;
/** A grain needs so many batches of its own, and so many of other grains beside it. */
const FEWEST_OF_A_GRAIN = 3;

/**
 * Which traits of a batch a forecast can use, and why not the others: it must be known of the batch
 * asked about, of at least ten batches and half of all, and differ among them (a grain of the seed: three batches of
 * that grain and three of others).
 */
export function chooseCovariates(
  batches: readonly ForecastBatch[],
  asked: BatchTraits,
): CovariateChoice[] {
  return TRAITS.map((trait) => {
    const values = batches.flatMap((batch) => batch[trait] ?? []);
    const why = whyChosen(values, batches.length, asked[trait]);
    const numbers = values.filter((value) => typeof value === 'number');
    const range =
      why === 'used' && numbers.length > 0
        ? { from: Math.min(...numbers), to: Math.max(...numbers) }
        : null;
    return { trait, used: why === 'used', known: values.length, why, range };
  });
}

function whyChosen(
  values: readonly (number | string)[],
  batches: number,
  asked: number | string | null,
): CovariateChoice['why'] {
  if (asked === null) return 'not known of this batch';
  if (values.length < FEWEST_BATCHES || 2 * values.length < batches) {
    return 'known of too few batches';
  }
  if (new Set(values).size === 1) return 'the same in all batches';
  if (typeof asked === 'number') return 'used';
  const same = values.filter((value) => value === asked).length;
  const tells = same >= FEWEST_OF_A_GRAIN && values.length - same >= FEWEST_OF_A_GRAIN;
  return tells ? 'used' : 'known of too few batches';
}
