import { beliefPart, type SettingBelief } from '../forecast/setting-belief';
import type { Profile } from '../regression/covariate';
import { profileRow } from '../regression/profile-row';
import type { SetAsideLevel } from '../regression/set-aside';
import type { PooledLevels } from './pool-levels';

/**
 * What pooled levels let one believe of a batch with these covariates: one part for each spread.
 * Throws RangeError for a profile that does not fit (see profileRow).
 */
export function beliefFromPooling(
  pooled: PooledLevels,
  profile: Profile,
): SettingBelief | { kind: 'no-estimate'; level: SetAsideLevel } {
  const found = profileRow(pooled, profile);
  if (found.kind === 'set-aside') return { kind: 'no-estimate', level: found.level };
  const parts = pooled.parts.map((part) => ({
    ...beliefPart(found.row, pooled.distribution, part, part.effectiveCoefficients),
    weight: part.weight,
  }));
  return { kind: 'belief', parts };
}
