import { fitWarming, type Estimate, type WarmingFit } from '../core/honey/fit-warming';
import type { TemperatureAt } from '../core/honey/air-plan';
import { fittedClearing } from '../core/honey/fitted-clearing';
import { warmPails } from '../core/honey/warm-pails';
import type { UsualPail } from './usual-pail';

// Runs in a thread of its own. It loads nothing but the computing: no framework, no database.

export interface WarmingFitTask {
  /** With the usual film and crystals, from where the next warming starts. */
  pail: UsualPail;
  /** In hours since the pail was put in. */
  coreReadings: TemperatureAt[];
  airReadings: TemperatureAt[];
  clearC: number;
  mostHours: number;
}

export type WarmingFitAnswer =
  | Exclude<WarmingFit, { kind: 'fitted' }>
  | { kind: 'outside'; reason: string }
  | {
      kind: 'fitted';
      fit: Extract<WarmingFit, { kind: 'fitted' }>;
      /** Until clear; undefined: not in that time. */
      reckonedHours: number | undefined;
      nextHours: Estimate | undefined;
    };

/** Fits the log, and reckons the same pail in the same air once with the usual values and once with the fitted ones. */
export function fit(task: WarmingFitTask): WarmingFitAnswer {
  try {
    return fitted(task);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { kind: 'outside', reason: error.message };
  }
}

function fitted({
  pail,
  coreReadings,
  airReadings,
  clearC,
  mostHours,
}: WarmingFitTask): WarmingFitAnswer {
  const { shape, honey } = pail;
  const found = fitWarming({ shape, honey, coreReadings, airReadings });
  if (found.kind !== 'fitted') return found;
  const { groups } = warmPails({
    pails: [{ ...pail, count: 1 }],
    air: { kind: 'logged', readings: airReadings },
    untilHours: mostHours,
    clearC,
    stopWhenClear: true,
  });
  return {
    kind: 'fitted',
    fit: found,
    reckonedHours: groups[0]?.clearAtHours,
    nextHours: fittedClearing({ fit: found, pail, airReadings, clearC, mostHours }),
  };
}
