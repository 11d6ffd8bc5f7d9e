import { at } from './at';

/**
 * Observations as runs of candidate intervals: cover i says that `weight[i]` batches set in one of
 * the candidates `first[i]` to `last[i]`, both included, of `candidates` in all.
 */
export type Covers = {
  candidates: number;
  first: Float64Array;
  last: Float64Array;
  weight: Float64Array;
  totalWeight: number;
};

/** Masses of the candidates, and what follows from them. */
export type MassState = {
  masses: Float64Array;
  /** The probability of each cover. */
  probabilities: Float64Array;
  /** See relativeGains. */
  gains: Float64Array;
  logLik: number;
  /** See maximumViolation. */
  kktMaxViolation: number;
};

/** Gathers equal runs into one cover each, with their weights summed. */
export function gatherCovers(
  candidates: number,
  runs: { first: Float64Array; last: Float64Array },
  weights: readonly number[],
): Covers {
  const weightByRun = new Map<number, number>();
  let totalWeight = 0;
  weights.forEach((weight, row) => {
    const run = at(runs.first, row) * candidates + at(runs.last, row);
    weightByRun.set(run, (weightByRun.get(run) ?? 0) + weight);
    totalWeight += weight;
  });

  const first = new Float64Array(weightByRun.size);
  const last = new Float64Array(weightByRun.size);
  const weight = new Float64Array(weightByRun.size);
  let cover = 0;
  for (const [run, sum] of weightByRun) {
    last[cover] = run % candidates;
    first[cover] = (run - at(last, cover)) / candidates;
    weight[cover] = sum;
    cover += 1;
  }
  return { candidates, first, last, weight, totalWeight };
}

/** The probability of each cover when candidate j holds `masses[j]`. */
export function coverProbabilities(covers: Covers, masses: Float64Array): Float64Array {
  const below = new Float64Array(covers.candidates + 1);
  for (let j = 0; j < covers.candidates; j += 1) below[j + 1] = at(below, j) + at(masses, j);
  const probabilities = new Float64Array(covers.weight.length);
  for (let i = 0; i < probabilities.length; i += 1) {
    probabilities[i] = at(below, at(covers.last, i) + 1) - at(below, at(covers.first, i));
  }
  return probabilities;
}

/** The natural logarithm of the likelihood; -Infinity when a cover has no probability. */
export function logLikelihood(covers: Covers, probabilities: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < probabilities.length; i += 1) {
    const probability = at(probabilities, i);
    if (!(probability > 0)) return -Infinity;
    sum += at(covers.weight, i) * Math.log(probability);
  }
  return sum;
}

/**
 * How much more (or less) than its cost a unit of mass at each candidate would add to the
 * log-likelihood, as a share of the number of batches: sum of weight / probability over the covers
 * that hold the candidate, divided by the total weight, less 1. At the maximum it is 0 where there
 * is mass and nowhere above 0.
 */
export function relativeGains(covers: Covers, probabilities: Float64Array): Float64Array {
  const steps = new Float64Array(covers.candidates + 1);
  for (let i = 0; i < probabilities.length; i += 1) {
    const rate = at(covers.weight, i) / at(probabilities, i);
    const start = at(covers.first, i);
    const end = at(covers.last, i) + 1;
    steps[start] = at(steps, start) + rate;
    steps[end] = at(steps, end) - rate;
  }
  const gains = new Float64Array(covers.candidates);
  let sum = 0;
  for (let j = 0; j < gains.length; j += 1) {
    sum += at(steps, j);
    gains[j] = sum / covers.totalWeight - 1;
  }
  return gains;
}

/**
 * How far masses are from the maximum: the largest gain anywhere, or gain or loss where there is
 * mass (the Karush-Kuhn-Tucker conditions). 0 to rounding at the maximum.
 */
export function maximumViolation(gains: Float64Array, masses: Float64Array): number {
  let violation = 0;
  for (let j = 0; j < gains.length; j += 1) {
    const gain = at(gains, j);
    violation = Math.max(violation, at(masses, j) > 0 ? Math.abs(gain) : gain);
  }
  return violation;
}
