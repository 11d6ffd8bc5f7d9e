import type { Distribution } from '../../core/setting/regression/error-law';
import type { Adjuster, Grouping } from './question';

export const groupingNames: Record<Grouping, string> = {
  floralSource: 'floral source',
  season: 'season',
  temperatureBand: 'temperature',
  seedLine: 'seed line',
  station: 'station',
};

export const adjusterNames: Record<Adjuster, string> = {
  temperature: 'temperature',
  season: 'season',
  floralSource: 'floral source',
  seedFraction: 'share of seed',
  seedGrain: 'grain of seed',
  moisture: 'moisture',
  honeyAge: 'age of the honey',
};

export const distributionNames: Record<Distribution, string> = {
  weibull: 'Weibull',
  lognormal: 'log-normal',
  loglogistic: 'log-logistic',
};

const SMALLEST_SHOWN = 0.001;

/** A p-value as a member reads it. */
export function pInWords(p: number): string {
  if (p < SMALLEST_SHOWN) return 'p below 0.001';
  return `p = ${p < 0.1 ? p.toFixed(3) : p.toFixed(2)}`;
}

export function batchesInWords(count: number): string {
  return count === 1 ? '1 batch' : `${count} batches`;
}

/** Days as a member says them: halves where they matter. */
export function daysInWords(days: number): string {
  const shown = days < 10 ? Math.round(days * 2) / 2 : Math.round(days);
  return shown === 1 ? '1 day' : `${shown} days`;
}

/** “a”, “a and b”, “a, b and c”. */
export function listInWords(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`;
}
