import type { ObservationKind, SettingObservation } from '../observation';
import { observationKind } from '../observation';
import type { Term } from './covariate';
import type { Design } from './design';
import type { Ascent } from './maximize-likelihood';

/** Why a regression has no estimate: no values of its coefficients are more likely than all others. */
export type NoEstimate = {
  kind: 'no-estimate';
  reason:
    | 'nothing observed'
    | 'none seen set'
    | 'all set before the first look'
    | 'columns explain each other'
    | 'no spread'
    | 'later looks found no more set'
    | 'covariates part set from unset';
  /** What the reason is about: covariates, or a level as 'source clover'. */
  terms: string[];
};

/** A term in words. */
export function termName(term: Term): string {
  if (term.kind === 'intercept') return 'intercept';
  return term.kind === 'level' ? `${term.covariate} ${term.level}` : term.covariate;
}

/** What is wrong with observations whatever the covariates; null when nothing is. */
export function refuseObservations(observations: readonly SettingObservation[]): NoEstimate | null {
  const kinds = new Set<ObservationKind>(observations.map(observationKind));
  const only = (kind: ObservationKind) => kinds.size === 1 && kinds.has(kind);
  if (kinds.size === 0) return { kind: 'no-estimate', reason: 'nothing observed', terms: [] };
  if (only('right-censored')) return { kind: 'no-estimate', reason: 'none seen set', terms: [] };
  if (only('left-censored')) {
    return { kind: 'no-estimate', reason: 'all set before the first look', terms: [] };
  }
  return null;
}

/** Names the columns that explain each other. */
export function collinearColumns(design: Design, columns: readonly number[]): NoEstimate {
  const named = design.terms.filter((_, j) => columns.includes(j)).map(termName);
  return { kind: 'no-estimate', reason: 'columns explain each other', terms: named };
}

/**
 * What it means that the likelihood grows without end along a direction. A scale that shrinks to 0:
 * some line passes through all that was seen. A scale that grows without end: time does not matter.
 * Otherwise the direction's columns part batches seen set from those not yet set, or from those set
 * before the first look.
 */
export function risingWithoutEnd(
  design: Design,
  { direction, scale }: Extract<Ascent, { kind: 'rising' }>,
): NoEstimate {
  if (scale === 'growing') {
    return { kind: 'no-estimate', reason: 'later looks found no more set', terms: [] };
  }
  const steps = Array.from(direction.subarray(0, design.rows.width), Math.abs);
  const longest = Math.max(...steps);
  const moving = design.terms.filter(
    (term, j) => term.kind !== 'intercept' && (steps[j] ?? 0) > LEAST_PART * longest,
  );
  if (scale === 'shrinking' || moving.length === 0) {
    return { kind: 'no-estimate', reason: 'no spread', terms: [] };
  }
  return {
    kind: 'no-estimate',
    reason: 'covariates part set from unset',
    terms: moving.map(termName),
  };
}

/** A part of a direction smaller than this is rounding. */
const LEAST_PART = 1e-3;
