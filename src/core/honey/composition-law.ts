import { requireRange } from './require-range';

/** What Annex II distinguishes, as far as a maker of creamed honey meets it. */
export interface HoneyKind {
  /** Honeydew honey, or a blend of honeydew and blossom honey. */
  honeydew: boolean;
  /** Ling heather. */
  calluna: boolean;
  /** Which sugar limit its plant has: see {@link SUCROSE_LIMITS_PERCENT}. */
  sucroseClass: keyof typeof SUCROSE_LIMITS_PERCENT;
}

/**
 * `raised`: false acacia, alfalfa, Menzies banksia, French honeysuckle, red gum, leatherwood, citrus.
 * `highest`: lavender, borage.
 */
export const SUCROSE_LIMITS_PERCENT = { general: 5, raised: 10, highest: 15 } as const;

const WATER_LIMIT_PERCENT = { general: 20, calluna: 23 } as const;
const SUGARS_LEAST_PERCENT = { blossom: 60, honeydew: 45 } as const;

/** What was measured; what was not is left out and not judged. */
export interface Analysis {
  waterPercent?: number;
  /** Fructose and glucose together. */
  sugarsPercent?: number;
  sucrosePercent?: number;
}

export interface LegalFinding {
  what: 'water' | 'fructose and glucose' | 'sucrose';
  limitPercent: number;
  /** In per cent (g per 100 g), to the limit; below 0 beyond it. */
  leftPercent: number;
  within: boolean;
}

/**
 * Does a honey keep the law's limits on its composition, and by how much?
 *
 * Water at most 20 % (ling heather 23 %); fructose and glucose at least 60 g per 100 g (honeydew and
 * its blends 45); sucrose at most 5 (some plants 10, lavender and borage 15). The limits themselves
 * are within. For HMF and diastase see keeping-limits.ts.
 * Source: Directive 2001/110/EC, Annex II; baker's honey and national law are not considered.
 * Range: 0 to 100 %. Example: blossom honey with 20.3 % water is 0.3 % beyond.
 *
 * @throws RangeError outside that range.
 */
export function compositionFindings(analysis: Analysis, kind: HoneyKind): LegalFinding[] {
  const findings: LegalFinding[] = [];
  const judge = (what: LegalFinding['what'], limitPercent: number, leftPercent: number) =>
    findings.push({ what, limitPercent, leftPercent, within: leftPercent >= 0 });

  if (analysis.waterPercent !== undefined) {
    const water = requireRange('waterPercent', analysis.waterPercent, 0, 100);
    const limit = kind.calluna ? WATER_LIMIT_PERCENT.calluna : WATER_LIMIT_PERCENT.general;
    judge('water', limit, limit - water);
  }
  if (analysis.sugarsPercent !== undefined) {
    const sugars = requireRange('sugarsPercent', analysis.sugarsPercent, 0, 100);
    const limit = kind.honeydew ? SUGARS_LEAST_PERCENT.honeydew : SUGARS_LEAST_PERCENT.blossom;
    judge('fructose and glucose', limit, sugars - limit);
  }
  if (analysis.sucrosePercent !== undefined) {
    const sucrose = requireRange('sucrosePercent', analysis.sucrosePercent, 0, 100);
    const limit = SUCROSE_LIMITS_PERCENT[kind.sucroseClass];
    judge('sucrose', limit, limit - sucrose);
  }
  return findings;
}
