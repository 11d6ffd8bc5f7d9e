import type { CovariateChoice } from '../core/setting/forecast/choose-covariates';
import type { BatchTraits } from '../core/setting/forecast/forecast-batch';
import { rounded } from '../reckonings/reckoned';

const names = {
  temperatureC: 'setting temperature',
  seedPercent: 'share of seed',
  seedGrain: 'grain of the seed',
  moisturePercent: 'moisture of the honey',
  honeyAgeDays: 'age of the honey',
};

const units = {
  temperatureC: '°C',
  seedPercent: '%',
  seedGrain: '',
  moisturePercent: '%',
  honeyAgeDays: 'days',
};

/** How a trait is used, or why it is not. */
export function covariateInWords({ trait, why, known }: CovariateChoice): string {
  const name = names[trait];
  switch (why) {
    case 'used':
      return `The ${name} is used, as far as ${known} batches tell what it does.`;
    case 'not known of this batch':
      return `The ${name} of this batch is not known.`;
    case 'known of too few batches':
      return trait === 'seedGrain'
        ? `Too few batches had seed of this grain, or of others: at least 3 of each are needed, and the grain known of 10 batches and half of all.`
        : `The ${name} is known of ${known === 1 ? '1 batch' : `${known} batches`}: at least 10 and half of all are needed.`;
    case 'the same in all batches':
      return `The ${name} was the same in all batches, so they do not tell what it does.`;
  }
}

/** A caution where the batch lies outside of what the club has seen; null where it does not. */
export function outsideInWords(
  { trait, range }: CovariateChoice,
  traits: BatchTraits,
): string | null {
  const value = traits[trait];
  if (range === null || typeof value !== 'number') return null;
  if (value >= range.from && value <= range.to) return null;
  const unit = units[trait];
  return (
    `The ${names[trait]}, ${rounded(value, 1)} ${unit}, lies outside of what the club has seen ` +
    `(${rounded(range.from, 1)} to ${rounded(range.to, 1)} ${unit}): the forecast is a guess there.`
  );
}
