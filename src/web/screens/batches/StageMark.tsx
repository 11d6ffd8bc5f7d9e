import { Badge } from '@mantine/core';
import { text } from '../../text';
import type { Stage } from './batch-queries';

const tones: Record<Stage, string> = {
  planned: 'var(--ink-soft)',
  loaded: 'var(--warm)',
  cleared: 'var(--warm)',
  cooled: 'var(--bench)',
  seeded: 'var(--bench)',
  potted: 'var(--cool)',
  shelved: 'var(--cool)',
  set: 'var(--good)',
  abandoned: 'var(--late)',
};

/** Where a batch has got to, in a word and a colour. */
export function StageMark({ stage }: { stage: Stage }) {
  return (
    <Badge
      variant="outline"
      size="lg"
      radius="sm"
      styles={{ root: { color: tones[stage], borderColor: tones[stage], textTransform: 'none' } }}
    >
      {text.batches.stages[stage]}
    </Badge>
  );
}
