import type { ObservedBatch } from './observed-batch';
import type { Adjuster } from './question';

type AdjusterKind =
  | {
      kind: 'numeric';
      of: (batch: ObservedBatch) => number | null;
      unit: string;
      /** A difference worth naming, in that unit, and how to name it. */
      step: number;
      stepInWords: [subject: string, other: string];
    }
  | { kind: 'factor'; of: (batch: ObservedBatch) => string | null };

/** How an adjuster is read off a batch; null: not known. */
export const adjusterKinds: Record<Adjuster, AdjusterKind> = {
  temperature: {
    kind: 'numeric',
    of: ({ settingTemperature }) => settingTemperature?.meanC ?? null,
    unit: '°C',
    step: 1,
    stepInWords: ['A batch 1 °C warmer', 'one as warm as before'],
  },
  season: { kind: 'factor', of: ({ season }) => season },
  floralSource: { kind: 'factor', of: ({ floralSourceName }) => floralSourceName },
  seedFraction: {
    kind: 'numeric',
    of: ({ seedFraction }) => 100 * seedFraction,
    unit: 'percent of the blend',
    step: 1,
    stepInWords: ['A batch with 1 percent of the blend more seed', 'one with as much as before'],
  },
  seedGrain: { kind: 'factor', of: ({ seedGrain }) => seedGrain },
  moisture: {
    kind: 'numeric',
    of: ({ waterPercent }) => waterPercent,
    unit: 'percent water',
    step: 1,
    stepInWords: ['Honey with 1 percent more water', 'honey with as much as before'],
  },
  honeyAge: {
    kind: 'numeric',
    of: ({ honeyAgeDays }) => honeyAgeDays,
    unit: 'days',
    step: 30,
    stepInWords: ['Honey 30 days older', 'honey as old as before'],
  },
};
