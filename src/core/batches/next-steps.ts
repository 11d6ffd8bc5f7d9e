/** What is done to a batch, in the order in which it is done. */
export const stepOrder = [
  'loaded',
  'cleared',
  'cooled',
  'seeded',
  'potted',
  'shelved',
  'set',
  'abandoned',
] as const;

export type BatchStepKind = (typeof stepOrder)[number];

/** A step that was done, at a time in epoch milliseconds. */
export interface DoneStep {
  kind: BatchStepKind;
  at: number;
}

/** What must have been done before; the others may follow whatever came before them. */
const needs: Partial<Record<BatchStepKind, BatchStepKind>> = {
  potted: 'seeded',
  shelved: 'potted',
  set: 'seeded',
};

/**
 * The steps that may be filed next, in order.
 *
 * Each step is filed once, and none after a later one; loading, clearing, cooling and shelving may be left
 * out. Potting may be filed late, when somebody saw the batch set before its owner wrote down the pots.
 * Abandoning is open until the batch has set, and ends it.
 */
export function nextSteps(done: readonly BatchStepKind[]): BatchStepKind[] {
  if (done.includes('abandoned')) return [];
  const last = Math.max(-1, ...done.map((kind) => stepOrder.indexOf(kind)));
  return stepOrder.filter((kind, index) => {
    const before = needs[kind];
    if (done.includes(kind) || (before !== undefined && !done.includes(before))) return false;
    if (kind === 'abandoned') return !done.includes('set');
    return index > last || kind === 'potted';
  });
}

/** The steps between which a step must lie in time, both moments allowed; null: no limit on that side. */
export interface TimeLimits {
  notBefore: DoneStep | null;
  notAfter: DoneStep | null;
}

/** Where in time a step belongs: not before any done step that comes before it, not after any that comes after it. */
export function timeLimits(kind: BatchStepKind, done: readonly DoneStep[]): TimeLimits {
  const place = stepOrder.indexOf(kind);
  const before = done.filter((step) => stepOrder.indexOf(step.kind) < place);
  const after = done.filter((step) => stepOrder.indexOf(step.kind) > place);
  const notBefore = before.reduce<DoneStep | null>(
    (latest, step) => (latest === null || step.at >= latest.at ? step : latest),
    null,
  );
  const notAfter = after.reduce<DoneStep | null>(
    (earliest, step) => (earliest === null || step.at < earliest.at ? step : earliest),
    null,
  );
  return { notBefore, notAfter };
}
