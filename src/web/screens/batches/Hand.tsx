import { Button, Group, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { useTimes } from '../../ui/times';
import { SeedAhead } from '../seed/SeedAhead';
import type { Batch, StepKind } from './batch-queries';
import { LookForm } from './LookForm';
import { nextStepsOf } from './next-steps';
import { StepForm } from './StepForm';
import { takeBackUntil } from './take-back';

/** What comes next, where the thumb is: on a phone it stays at the lower edge. The first tap opens it, the second files it. */
export function Hand({ batch }: { batch: Batch }) {
  const [open, setOpen] = useState<StepKind | 'look' | null>(null);
  const [isOther, setOther] = useState(false);
  const { first, others, canLook } = nextStepsOf(batch.stage);
  const last = batch.steps.at(-1);
  const close = () => {
    setOpen(null);
    setOther(false);
  };
  if (first === null && !canLook && last === undefined) return null;
  return (
    <section
      className={`hand no-print${open === null ? '' : ' is-open'}`}
      aria-label={text.batches.next}
    >
      {(first === 'seeded' || others.includes('seeded')) && <SeedAhead batchId={batch.id} />}
      {open === null ? (
        <>
          <TakeBack batch={batch} />
          <Group gap="xs" className="hand-row">
            {canLook && (
              <Button
                size="lg"
                className="hand-main"
                variant={batch.stage === 'set' ? 'default' : 'filled'}
                onClick={() => setOpen('look')}
              >
                {text.batches.look}
              </Button>
            )}
            {first !== null && (
              <Button
                size="lg"
                className="hand-main"
                variant={canLook ? 'default' : 'filled'}
                onClick={() => setOpen(first)}
              >
                {text.batches.does[first]}
              </Button>
            )}
            {others.length > 0 && (
              <Button
                variant="default"
                size="lg"
                aria-expanded={isOther}
                onClick={() => setOther(!isOther)}
              >
                {text.batches.other}
              </Button>
            )}
          </Group>
          {isOther && (
            <Group gap="xs" mt="xs">
              {others.map((kind) => (
                <Button key={kind} variant="default" onClick={() => setOpen(kind)}>
                  {text.batches.does[kind]}
                </Button>
              ))}
            </Group>
          )}
        </>
      ) : (
        <>
          <Group justify="space-between" mb="xs" wrap="nowrap">
            <Text fw={600} size="lg">
              {open === 'look' ? text.batches.look : text.batches.does[open]}
            </Text>
            <Button variant="subtle" onClick={close}>
              {text.frame.cancel}
            </Button>
          </Group>
          {open === 'look' ? (
            <LookForm batch={batch} onDone={close} />
          ) : (
            <StepForm batch={batch} kind={open} onDone={close} />
          )}
        </>
      )}
    </section>
  );
}

/** The last step, as long as it was filed a moment ago and can be taken back. */
function TakeBack({ batch }: { batch: Batch }) {
  const { clubId } = useClub();
  const times = useTimes();
  const step = batch.steps.at(-1);
  const undo = useMutation({
    mutationFn: (stepId: string) =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/batches/{id}/steps/{stepId}/take-back', {
          params: { path: { clubId, id: batch.id, stepId } },
        }),
      ),
    onSuccess: readAnew,
  });
  const until = step === undefined ? null : takeBackUntil(step);
  if (step === undefined || until === null) return null;
  return (
    <>
      <Group justify="space-between" mb="xs" wrap="nowrap">
        <Text size="sm">
          {text.batches.takeBackUntil(text.batches.stages[step.kind], times.time(until))}
        </Text>
        <Button
          variant="default"
          loading={undo.isPending}
          onClick={() => undo.mutate(step.id)}
          className="hand-undo"
        >
          {text.batches.takeBack}
        </Button>
      </Group>
      {undo.isError && <Failure error={undo.error} />}
    </>
  );
}
