import type { Profile } from './covariate';
import type { SettingRegression } from './fit-regression';
import type { SetAsideLevel } from './set-aside';

/** The columns of a batch with these covariates, or the level for which there is no estimate. */
export type ProfileRow =
  { kind: 'row'; row: number[] } | { kind: 'set-aside'; level: SetAsideLevel };

/**
 * The columns of a regression for a batch with the given covariates.
 * Throws RangeError when a covariate is missing, is not a finite number, or is no level of the
 * regression; covariates that it does not know are passed over.
 */
export function profileRow(
  regression: Pick<SettingRegression, 'terms' | 'setAside'>,
  profile: Profile,
): ProfileRow {
  const aside = regression.setAside.find(({ covariate, level }) => profile[covariate] === level);
  if (aside !== undefined) return { kind: 'set-aside', level: aside };
  const row = regression.terms.map((term) => {
    if (term.kind === 'intercept') return 1;
    const value = profile[term.covariate];
    if (term.kind === 'numeric') {
      if (typeof value !== 'number' || !Number.isFinite(value)) {
        throw new RangeError(`${term.covariate} must be a finite number, got ${value}`);
      }
      return value;
    }
    const levels = regression.terms.flatMap((other) =>
      other.kind === 'level' && other.covariate === term.covariate ? [other.level] : [],
    );
    if (value !== term.reference && !levels.some((level) => level === value)) {
      throw new RangeError(
        `${term.covariate} must be among ${[...new Set([term.reference, ...levels])].join(', ')}, got ${value}`,
      );
    }
    return value === term.level ? 1 : 0;
  });
  return { kind: 'row', row };
}
