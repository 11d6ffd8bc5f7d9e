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
  told,
  send,
  sent,
  wish,
  free,
  canSend = true,
  massKg: wishedKg = null,
  onDone,
  onCancel,
  children,
}: {
  /** What a loan of so much is called while it waits for the network. */
  told: (mass: string) => string;
  send: string;
  sent: string;
  /** Who lends what to whom, and where that is sent. */
  wish: () => { path: string; body: object };
  /** What there is, in words. */
  free?: string | undefined;
  canSend?: boolean;
  massKg?: number | null;
  children: ReactNode;
} & LoanFormEnds) {
  const { massUnit, mass } = useUnitWords();
  const [massKg, setMass] = useState(wishedKg);
  const [dueOn, setDue] = useState('');
  const [note, setNote] = useState('');
  const begin = useDeed(told(mass(massKg ?? 0)), () => onDone?.());
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    const { path, body } = wish();
    begin.mutate(
      {
        path,
        body: {
          ...body,
          massKg: massKg ?? 0,
          ...(dueOn !== '' && { dueOn }),
          ...(note !== '' && { note }),
        },
      },
      // What is sent, or kept to be sent, is not sent again by a second tap.
      { onSuccess: () => setMass(null) },
    );
  };
  return (
    <form onSubmit={submit} className="no-print">
      <Stack gap="xs">
        {children}
        <MassField
          label={words.mass(massUnit)}
          {...(free !== undefined && { description: free })}
          required
          valueKg={massKg}
          onChange={setMass}
        />
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
          <Button type="submit" size="lg" disabled={!canSend} loading={begin.isPending}>
            {send}
          </Button>
          {onCancel !== undefined && (
            <Button variant="subtle" onClick={onCancel}>
              {begin.data === 'kept' ? text.frame.close : text.frame.cancel}
            </Button>
          )}
        </Group>
      </Stack>
    </form>
  );
}
