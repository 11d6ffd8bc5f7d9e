import type { Stage, StepKind } from './batch-queries';

const order: StepKind[] = ['loaded', 'cleared', 'cooled', 'seeded', 'potted', 'shelved'];

/** Which step to offer first after that stage, and which others; the service says no to what may not come. */
export function nextStepsOf(stage: Stage): {
  first: StepKind | null;
  others: StepKind[];
  canLook: boolean;
} {
  if (stage === 'abandoned') return { first: null, others: [], canLook: false };
  const done = stage === 'set' ? order.length : order.indexOf(stage as StepKind) + 1;
  const ahead = order.slice(done);
  const isStirred = done > order.indexOf('seeded');
  return {
    first: ahead[0] ?? null,
    others: stage === 'set' ? [] : [...ahead.slice(1), 'abandoned'],
    canLook: isStirred,
  };
}
