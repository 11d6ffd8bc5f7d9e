import { Button, Group, NativeSelect, Stack, Text, TextInput } from '@mantine/core';
import { useState, type SyntheticEvent } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { MassField } from '../../ui/MassField';
import { useUnitWords } from '../../ui/units';
import { useMembers } from '../club/club-queries';
import { useDeed } from './use-deed';

const words = text.loans;

/** A wish for seed: to one member, to anybody, or for one lot of its holder's. */
export function AskForm({
  lot,
  holder,
  massKg: wishedKg = null,
  onDone,
  onCancel,
}: {
  lot?: { id: string; name: string };
  holder?: { id: string; name: string };
  massKg?: number | null;
  onDone?: () => void;
  onCancel?: () => void;
}) {
  const { memberId } = useClub();
  const { massUnit, mass } = useUnitWords();
  const members = useMembers();
  const [lenderId, setLender] = useState(holder?.id ?? '');
  const [massKg, setMass] = useState<number | null>(wishedKg);
  const [dueOn, setDue] = useState('');
  const [note, setNote] = useState('');
  const others = (members.data ?? []).filter(
    ({ id, leftAt }) => id !== memberId && leftAt === null,
  );
  const lender = holder ?? others.find(({ id }) => id === lenderId);
  const ask = useDeed(
    words.told(words.ask, mass(massKg ?? 0), lender?.name ?? words.fromAnybody),
    () => onDone?.(),
  );
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    const body = {
      massKg: massKg ?? 0,
      ...(lenderId !== '' && { lenderId }),
      ...(lot !== undefined && { lotId: lot.id }),
      ...(dueOn !== '' && { dueOn }),
      ...(note !== '' && { note }),
    };
    // What is sent, or kept to be sent, is not sent again by a second tap.
    ask.mutate({ path: '/asks', body }, { onSuccess: () => setMass(null) });
  };
  return (
    <form onSubmit={submit} className="no-print">
      <Stack gap="xs">
        {lot === undefined ? (
          <NativeSelect
            label={words.from}
            value={lenderId}
            onChange={(event) => setLender(event.currentTarget.value)}
            data={[
              { value: '', label: words.fromAnybody },
              ...others.map(({ id, name }) => ({ value: id, label: name })),
            ]}
          />
        ) : (
          <Text>
            {holder?.name}: {lot.name}
          </Text>
        )}
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
        {ask.isError && <Failure error={ask.error} />}
        {ask.isSuccess && (
          <Text role="status">{ask.data === 'kept' ? words.kept : words.sent.ask}</Text>
        )}
        <Group gap="xs">
          <Button type="submit" size="lg" loading={ask.isPending}>
            {words.send.ask}
          </Button>
          {onCancel !== undefined && (
            <Button variant="subtle" onClick={onCancel}>
              {ask.data === 'kept' ? text.frame.close : text.frame.cancel}
            </Button>
          )}
        </Group>
      </Stack>
    </form>
  );
}
