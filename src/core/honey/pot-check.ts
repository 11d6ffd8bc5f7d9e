import { requirePositive, requireRange } from './require-range';
import { tolerableDeficiencyG } from './tolerable-deficiency';

export type PotCheck =
  | {
      kind: 'checked';
      pots: number;
      meanG: number;
      tolerableDeficiencyG: number;
      /** Short of the label by more than the tolerable deficiency. */
      inadequate: number;
      /** How many such pots there may be: one in forty, rounded down. */
      inadequateAllowed: number;
      /** Short by more than twice that: none may be sold. */
      forbidden: number;
      meanIsEnough: boolean;
      passes: boolean;
    }
  | { kind: 'no-pots' };

const INADEQUATE_PART = 0.025;

/** A millionth of a gram: weighings are sums of decimal fractions that binary cannot hold. */
const ROUNDING_G = 1e-6;

/**
 * Do these weighed pots keep the rules on net quantity?
 *
 * Their mean must reach the label; at most 2.5 % of them may fall short by more than the tolerable
 * deficiency T (in a set below 40 pots: none); none by more than 2T. Every pot of the batch is taken
 * to have been weighed: for a sample, an inspector's plan allows for chance.
 * Source: OIML R 87; Directive 76/211/EEC; German law takes 2 %.
 * Range: label 5 to 25,000 g; net masses from 0 g. No pots is a value, not an error.
 * Example: 30 pots of 454 g, mean 455 g, lightest 441 g: passes (T is 13.7 g).
 *
 * @throws RangeError outside that range.
 */
export function checkPots(nominalG: number, netMassesG: readonly number[]): PotCheck {
  const toleranceG = tolerableDeficiencyG(nominalG);
  for (const massG of netMassesG) requireRange('netMassesG', massG, 0, 100_000);
  const pots = netMassesG.length;
  if (pots === 0) return { kind: 'no-pots' };

  const meanG = netMassesG.reduce((sum, massG) => sum + massG, 0) / pots;
  const shortBy = (deficiencyG: number) =>
    netMassesG.filter((massG) => nominalG - massG > deficiencyG + ROUNDING_G).length;
  const inadequate = shortBy(toleranceG);
  const forbidden = shortBy(2 * toleranceG);
  const inadequateAllowed = Math.floor(pots * INADEQUATE_PART);
  const meanIsEnough = meanG >= nominalG - ROUNDING_G;
  return {
    kind: 'checked',
    pots,
    meanG,
    tolerableDeficiencyG: toleranceG,
    inadequate,
    inadequateAllowed,
    forbidden,
    meanIsEnough,
    passes: meanIsEnough && inadequate <= inadequateAllowed && forbidden === 0,
  };
}

/**
 * How many pots does a batch fill, and what is left?
 *
 * Whole grams: (batch − seed put by − lost on walls and mixer) divided by what goes into a pot.
 * Range: whole grams from 0, a pot above 0; what is put by and lost no more than the batch.
 * Example: 27,500 g, 2750 g put by, 250 g lost, 454 g filled to 456 g: 53 pots and 332 g left.
 *
 * @throws RangeError outside that range.
 */
export function potsFromBatch(batch: {
  batchMassG: number;
  putByMassG: number;
  lostMassG: number;
  filledMassG: number;
}): { pots: number; leftMassG: number } {
  for (const [name, massG] of Object.entries(batch)) {
    requireRange(name, massG, 0, Infinity);
    if (!Number.isInteger(massG)) throw new RangeError(`${name} must be whole grams`);
  }
  const filledMassG = requirePositive('filledMassG', batch.filledMassG);
  const toFillG = batch.batchMassG - batch.putByMassG - batch.lostMassG;
  if (toFillG < 0) throw new RangeError('putByMassG and lostMassG must not exceed batchMassG');
  return { pots: Math.floor(toFillG / filledMassG), leftMassG: toFillG % filledMassG };
}
