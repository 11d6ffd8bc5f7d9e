import { requirePositive, requireRange } from './require-range';

export interface BuildUpQuestion {
  /** Seed in hand. */
  startSeedG: number;
  /** Seed in every batch, of the blend. */
  percentOfBlend: number;
  /** The part of every batch put by as seed. */
  keepPercentOfBlend: number;
  batchesPerMonth: number;
  /** Seed that must lie ready when the season begins. */
  wantedSeedG: number;
  /** What the mixer or the pail holds; seed that does not fit waits for the next batch. */
  largestBatchG?: number;
}

export interface BuildUpBatch {
  number: number;
  /** When it has set and its seed can be used: one batch interval after it was begun. */
  readyAfterMonths: number;
  seedUsedG: number;
  blendG: number;
  keptG: number;
  /** All seed in hand once this batch has set. */
  seedInHandG: number;
  /** How much of the seed in hand is still the first seed. */
  firstSeedPercent: number;
}

export type BuildUpPlan =
  | { kind: 'enough'; afterMonths: number; batches: BuildUpBatch[] }
  /** Each batch gives back no more seed than it took. */
  | { kind: 'never'; keepMoreThanPercentOfBlend: number }
  | { kind: 'too-slow'; batches: BuildUpBatch[] };

const MOST_BATCHES = 240;

/**
 * When is there enough seed, starting from a little, and how much of the first seed is still in it?
 *
 * Every batch takes all seed in hand, or what the largest batch bears; blend = seed / share; the kept
 * part joins the seed left over. Seed grows by keep/share a batch; the first seed is thinned to the
 * share in every batch. Mass balance.
 * Range: masses above 0; seed share above 0 up to 50 % of the blend; kept part 0 to 100 %; 0.1 to 10
 * batches a month; at most 240 batches, beyond which it is called too slow.
 * Example: 250 g, 10 % seed, half of every batch kept, one batch a month: 1250 g after a month
 * (10 % of it first seed), 6250 g after two (1 %), 31 kg after three.
 *
 * @throws RangeError outside that range.
 */
export function seedBuildUp(question: BuildUpQuestion): BuildUpPlan {
  const share = checked(question) / 100;
  const keep = question.keepPercentOfBlend / 100;
  const largestBatchG = question.largestBatchG ?? Infinity;

  let seedInHandG = question.startSeedG;
  let firstSeedG = question.startSeedG;
  const batches: BuildUpBatch[] = [];
  const monthsEach = 1 / question.batchesPerMonth;
  if (seedInHandG >= question.wantedSeedG) return { kind: 'enough', afterMonths: 0, batches };
  if (keep <= share) {
    return { kind: 'never', keepMoreThanPercentOfBlend: question.percentOfBlend };
  }

  while (batches.length < MOST_BATCHES) {
    const seedUsedG = Math.min(seedInHandG, largestBatchG * share);
    const blendG = seedUsedG / share;
    const keptG = blendG * keep;
    const firstPart = firstSeedG / seedInHandG;
    firstSeedG += firstPart * (keptG * share - seedUsedG);
    seedInHandG += keptG - seedUsedG;
    const number = batches.length + 1;
    batches.push({
      number,
      readyAfterMonths: number * monthsEach,
      seedUsedG,
      blendG,
      keptG,
      seedInHandG,
      firstSeedPercent: (100 * firstSeedG) / seedInHandG,
    });
    if (seedInHandG >= question.wantedSeedG) {
      return { kind: 'enough', afterMonths: number * monthsEach, batches };
    }
  }
  return { kind: 'too-slow', batches };
}

function checked(question: BuildUpQuestion): number {
  requirePositive('startSeedG', question.startSeedG);
  requirePositive('wantedSeedG', question.wantedSeedG);
  requireRange('keepPercentOfBlend', question.keepPercentOfBlend, 0, 100);
  requireRange('batchesPerMonth', question.batchesPerMonth, 0.1, 10);
  requirePositive('largestBatchG', question.largestBatchG ?? 1);
  const share = requirePositive('percentOfBlend', question.percentOfBlend);
  return requireRange('percentOfBlend', share, 0, 50);
}
