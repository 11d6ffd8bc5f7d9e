import { at } from './at';
import type { Covers } from './covers';

/**
 * The maximum-likelihood masses in closed form where every cover holds one candidate, or all from
 * some candidate to the last (exact and right-censored times do); null where one does not.
 *
 * Formula: of the batches that can still set in candidate j or later, the share that set in j;
 * the mass is that share of what was left. Source: E. L. Kaplan and P. Meier, "Nonparametric
 * estimation from incomplete observations", J. Amer. Statist. Assoc. 53 (1958).
 */
export function productLimitMasses(covers: Covers): Float64Array | null {
  const final = covers.candidates - 1;
  const settingIn = new Float64Array(covers.candidates);
  const leavingBefore = new Float64Array(covers.candidates);
  for (let i = 0; i < covers.weight.length; i += 1) {
    const first = at(covers.first, i);
    const last = at(covers.last, i);
    const counts = first === last ? settingIn : leavingBefore;
    if (first !== last && last !== final) return null;
    counts[first] = at(counts, first) + at(covers.weight, i);
  }

  let atRisk = covers.totalWeight;
  let remaining = 1;
  return settingIn.map((setting, j) => {
    atRisk -= at(leavingBefore, j);
    const mass = atRisk > 0 ? (remaining * setting) / atRisk : 0;
    remaining -= mass;
    atRisk -= setting;
    return mass;
  });
}
