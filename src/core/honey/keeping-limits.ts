import { diastaseLossPerHour, invertaseLossPerHour } from './enzyme-loss';
import { hmfGainPerHour } from './hmf';
import { requireRange } from './require-range';

/** What a honey must keep to; what a rule does not speak of is left out. */
export interface KeepingLimits {
  hmfMgPerKg?: number;
  /** Schade (Gothe) units. */
  diastaseNumber?: number;
  /** Part of the first invertase: a club's own rule, no law asks for it. */
  invertaseLeft?: number;
}

export type LegalKind = 'general' | 'low-enzyme' | 'tropical';

/**
 * The law's limits on heat and age. Source: Directive 2001/110/EC, Annex II: HMF 40 mg/kg and diastase
 * 8; honey naturally low in enzymes (citrus) diastase 3, provided that HMF is not above 15 mg/kg;
 * declared tropical origin HMF 80 mg/kg.
 */
export const LEGAL_LIMITS: Readonly<Record<LegalKind, KeepingLimits>> = {
  general: { hmfMgPerKg: 40, diastaseNumber: 8 },
  'low-enzyme': { hmfMgPerKg: 15, diastaseNumber: 3 },
  tropical: { hmfMgPerKg: 80, diastaseNumber: 8 },
};

/** Where a honey stands. */
export interface HoneyState {
  hmfMgPerKg: number;
  diastaseNumber: number;
  invertaseLeft: number;
}

export interface Headroom {
  limit: 'hmf' | 'diastase' | 'invertase';
  rule: 'law' | 'club';
  limitValue: number;
  /** How far from the limit, in its own unit; below 0 beyond it. */
  left: number;
  /** Days at the temperature asked about until the limit is reached; 0 once it is. */
  daysLeft: number;
}

const HOURS_PER_DAY = 24;

/**
 * What is left of the limits, and which one binds?
 *
 * HMF: what is missing to the limit over the gain per hour (the fastest published: `most`, because a
 * limit must be safe for every honey). Enzymes: ln(state / limit) over the loss per hour.
 * The first of the list binds: the one that honey kept at `keptAtC` would reach first.
 * Sources and range (10 to 80 °C) of the rates: hmf.ts, enzyme-loss.ts.
 * Example: HMF 10, diastase 16 at 20 °C: HMF binds, 300 days to 40 mg/kg; diastase 1480 days to 8.
 *
 * @throws RangeError for a state or limit below 0 (invertase above 1), or a temperature off the range.
 */
export function headroom(question: {
  state: HoneyState;
  law?: KeepingLimits;
  club?: KeepingLimits;
  keptAtC: number;
}): Headroom[] {
  const { state, keptAtC } = question;
  requireRange('hmfMgPerKg', state.hmfMgPerKg, 0, 10_000);
  requireRange('diastaseNumber', state.diastaseNumber, 0, 1000);
  requireRange('invertaseLeft', state.invertaseLeft, 0, 1);
  const hmfPerDay = hmfGainPerHour(keptAtC, 'most') * HOURS_PER_DAY;
  const diastasePerDay = diastaseLossPerHour(keptAtC) * HOURS_PER_DAY;
  const invertasePerDay = invertaseLossPerHour(keptAtC) * HOURS_PER_DAY;

  const falling = (now: number, limitValue: number, perDay: number) => ({
    limitValue,
    left: now - limitValue,
    daysLeft: now <= limitValue ? 0 : Math.log(now / limitValue) / perDay,
  });
  const found: Headroom[] = [];
  for (const rule of ['law', 'club'] as const) {
    const limits = question[rule] ?? {};
    if (limits.hmfMgPerKg !== undefined) {
      const limitValue = requireRange('hmfMgPerKg', limits.hmfMgPerKg, 0, 10_000);
      const left = limitValue - state.hmfMgPerKg;
      const daysLeft = Math.max(0, left / hmfPerDay);
      found.push({ limit: 'hmf', rule, limitValue, left, daysLeft });
    }
    if (limits.diastaseNumber !== undefined) {
      const limitValue = requireRange('diastaseNumber', limits.diastaseNumber, 0, 1000);
      const fall = falling(state.diastaseNumber, limitValue, diastasePerDay);
      found.push({ limit: 'diastase', rule, ...fall });
    }
    if (limits.invertaseLeft !== undefined) {
      const limitValue = requireRange('invertaseLeft', limits.invertaseLeft, 0, 1);
      const fall = falling(state.invertaseLeft, limitValue, invertasePerDay);
      found.push({ limit: 'invertase', rule, ...fall });
    }
  }
  return found.sort((a, b) => a.daysLeft - b.daysLeft);
}
