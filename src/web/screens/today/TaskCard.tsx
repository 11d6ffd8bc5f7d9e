import { Button, Group, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import { queries } from '../../api/queries';
import { useSendOrKeep } from '../../offline/outbox';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import type { StepKind } from '../batches/batch-queries';
import { LookForm } from '../batches/LookForm';
import { StepForm } from '../batches/StepForm';
import { SeedAhead } from '../seed/SeedAhead';
import { durationWords } from './duration-words';
import type { Task } from './today-queries';

const words = text.today;

/** One thing to do: the first tap opens it, the second does it. */
export function TaskCard({ task, namesMember }: { task: Task; namesMember: boolean }) {
  const [isOpen, setOpen] = useState(false);
  const close = () => setOpen(false);
  const isForSeed = task.isOpen && stepKindOf(task) === 'seeded';
  return (
    <article className={task.late ? 'sheet task is-late' : 'sheet task'}>
      {isForSeed && task.batch !== null && <SeedAhead batchId={task.batch.id} />}
      <Text fw={600}>{task.sentence}</Text>
      {(namesMember || task.lateMinutes !== null) && (
        <Text className={task.late ? 'late' : 'soft'}>
          {namesMember && task.member.name}
          {namesMember && task.lateMinutes !== null && ' · '}
          {task.lateMinutes !== null && words.lateBy(durationWords(task.lateMinutes))}
        </Text>
      )}
      {isOpen ? (
        <>
          {task.cautions.map((caution) => (
            <Text key={caution} size="sm">
              {caution}
            </Text>
          ))}
          <Doing task={task} onDone={close} />
          <Button variant="subtle" onClick={close}>
            {text.frame.cancel}
          </Button>
        </>
      ) : (
        <Group>
          {task.isOpen && (
            <Button size="xl" onClick={() => setOpen(true)}>
              {words.kinds[task.kind]}
            </Button>
          )}
          {task.batch !== null && (
            <Button
              component={Link}
              href={`/batches/${task.batch.id}`}
              variant="subtle"
              aria-label={`${words.openBatch}: ${task.batch.name}`}
            >
              {words.openBatch}
            </Button>
          )}
        </Group>
      )}
    </article>
  );
}

/** The second tap: a form where only the person knows something, else one button. */
function Doing({ task, onDone }: { task: Task; onDone: () => void }) {
  const stepKind = stepKindOf(task);
  if (task.batch !== null && task.kind === 'check') {
    return <LookForm batch={task.batch} onDone={onDone} />;
  }
  if (task.batch !== null && stepKind !== null && task.request.fillIn.length > 0) {
    const batch = { ...task.batch, member: task.member };
    return <StepForm batch={batch} kind={stepKind} onDone={onDone} />;
  }
  if (task.request.fillIn.length > 0) {
    return (
      <Button component={Link} href="/seed/loans" size="lg">
        {words.kinds[task.kind]}
      </Button>
    );
  }
  return <DoIt task={task} onDone={onDone} />;
}

function DoIt({ task, onDone }: { task: Task; onDone: () => void }) {
  const sendOrKeep = useSendOrKeep();
  const [isKept, setKept] = useState(false);
  const doIt = useMutation({
    mutationFn: () => {
      const body =
        'at' in task.request.body
          ? { ...task.request.body, at: new Date().toISOString() }
          : task.request.body;
      return sendOrKeep(task.request.path, body, task.sentence);
    },
    onSuccess: async (how) => {
      if (how === 'kept') setKept(true);
      else {
        await queries.invalidateQueries();
        onDone();
      }
    },
  });
  return (
    <>
      {doIt.isError && <Failure error={doIt.error} />}
      {isKept ? (
        <Text role="status">{words.kept}</Text>
      ) : (
        <Button size="xl" loading={doIt.isPending} onClick={() => doIt.mutate()}>
          {words.sure}
        </Button>
      )}
    </>
  );
}

function stepKindOf({ request }: Task): StepKind | null {
  const kind = request.body['kind'];
  return request.path.endsWith('/steps') && typeof kind === 'string' ? (kind as StepKind) : null;
}
