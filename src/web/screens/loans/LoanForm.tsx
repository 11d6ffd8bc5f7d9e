import { Button, Group, Stack, Text, TextInput } from '@mantine/core';
import { useState, type ReactNode, type SyntheticEvent } from 'react';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { MassField } from '../../ui/MassField';
import { useUnitWords } from '../../ui/units';
import { useDeed } from './use-deed';

const words = text.loans;

/** What follows when a loan is begun, or is not. */
export interface LoanFormEnds {
  onDone?: () => void;
  onCancel?: () => void;
}

/** How a loan begins: above stands who lends what to whom, here how much, back by when, and a note. */
export function LoanForm({
  name,
  send,
  sent,
  wish,
  massKg: wishedKg = null,
  onDone,
  onCancel,
  children,
}: {
  /** What it is called while it waits for the network. */
  name: string;
  send: string;
  sent: string;
  /** Who lends what to whom, and where that is sent. */
  wish: () => { path: string; body: object };
  massKg?: number | null;
  children: ReactNode;
} & LoanFormEnds) {
  const { massUnit } = useUnitWords();
  const [massKg, setMass] = useState(wishedKg);
  const [dueOn, setDue] = useState('');
  const [note, setNote] = useState('');
  const begin = useDeed(name, () => {
    setMass(null);
    onDone?.();
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    const { path, body } = wish();
    begin.mutate({
      path,
      body: {
        ...body,
        massKg: massKg ?? 0,
        ...(dueOn !== '' && { dueOn }),
        ...(note !== '' && { note }),
      },
    });
  };
  return (
    <form onSubmit={submit} className="no-print">
      <Stack gap="xs">
        {children}
        <MassField label={words.mass(massUnit)} required valueKg={massKg} onChange={setMass} />
        <TextInput
          type="date"
          label={words.dueOn}
          value={dueOn}
          onChange={(event) => setDue(event.currentTarget.value)}
        />
        <TextInput
          label={words.note}
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
        {begin.isError && <Failure error={begin.error} />}
        {begin.isSuccess && <Text role="status">{begin.data === 'kept' ? words.kept : sent}</Text>}
        <Group gap="xs">
          <Button type="submit" size="lg" loading={begin.isPending}>
            {send}
          </Button>
          {onCancel !== undefined && (
            <Button variant="subtle" onClick={onCancel}>
              {text.frame.cancel}
            </Button>
          )}
        </Group>
      </Stack>
    </form>
  );
}
