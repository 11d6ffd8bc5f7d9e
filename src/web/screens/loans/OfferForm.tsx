import { Button, Group, NativeSelect, Stack, Text, TextInput } from '@mantine/core';
import { useState, type SyntheticEvent } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { MassField } from '../../ui/MassField';
import { useUnitWords } from '../../ui/units';
import { useMembers } from '../club/club-queries';
import type { Lot } from '../lots/lot-queries';
import { useSeedOf } from '../seed/seed-queries';
import { bestLotFor, freeKgOf, SeedSelect } from './SeedSelect';
import { useDeed } from './use-deed';

const words = text.loans;

interface Given {
  lot?: { id: string; name: string };
  /** In whose name; nobody said: one's own. */
  holderId?: string;
  onDone?: () => void;
  onCancel?: () => void;
}

/** Seed of one's own for another member: handed over where the two stand together, or offered. Without a lot it is chosen. */
export function OfferForm(given: Given) {
  const { memberId } = useClub();
  const lots = useSeedOf(given.holderId ?? memberId);
  // What is lent is known: without a network the form opens all the same.
  if (given.lot !== undefined) return <Filled {...given} lots={lots.data ?? []} />;
  return <Loaded query={lots}>{(items) => <Filled {...given} lots={items} />}</Loaded>;
}

function Filled({ lot, holderId, onDone, onCancel, lots }: Given & { lots: Lot[] }) {
  const { memberId } = useClub();
  const lenderId = holderId ?? memberId;
  const { massUnit, mass } = useUnitWords();
  const members = useMembers();
  const [chosenId, setLot] = useState('');
  const [how, setHow] = useState<keyof typeof words.hows>('now');
  const [borrowerId, setBorrower] = useState('');
  const [massKg, setMass] = useState<number | null>(null);
  const [dueOn, setDue] = useState('');
  const [note, setNote] = useState('');
  const others = (members.data ?? []).filter(
    ({ id, leftAt }) => id !== lenderId && leftAt === null,
  );
  const borrower = others.find(({ id }) => id === borrowerId);
  const lend = useDeed(words.told(words.send[how], mass(massKg ?? 0), borrower?.name ?? ''), () =>
    onDone?.(),
  );
  const lotId = lot?.id ?? (chosenId === '' ? (bestLotFor(lots, 0)?.id ?? '') : chosenId);
  const chosen = lots.find(({ id }) => id === lotId);
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    const body = {
      lotId,
      borrowerId,
      massKg: massKg ?? 0,
      ...(how === 'now' && { at: new Date().toISOString() }),
      ...(dueOn !== '' && { dueOn }),
      ...(note !== '' && { note }),
    };
    const path = how === 'now' ? '' : '/offers';
    // What is sent, or kept to be sent, is not sent again by a second tap.
    lend.mutate({ path, body }, { onSuccess: () => setMass(null) });
  };
  return (
    <form onSubmit={submit} className="no-print">
      <Stack gap="xs">
        <Chips label={words.how} of={words.hows} value={how} onChange={setHow} />
        {lot === undefined && <SeedSelect lots={lots} value={lotId} onChange={setLot} />}
        <NativeSelect
          label={words.to}
          required
          value={borrowerId}
          onChange={(event) => setBorrower(event.currentTarget.value)}
          data={[
            { value: '', label: '' },
            ...others.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
        <MassField
          label={words.mass(massUnit)}
          {...(chosen !== undefined && { description: words.free(mass(freeKgOf(chosen))) })}
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
        {lend.isError && <Failure error={lend.error} />}
        {lend.isSuccess && (
          <Text role="status">{lend.data === 'kept' ? words.kept : words.sent[how]}</Text>
        )}
        <Group gap="xs">
          <Button type="submit" size="lg" disabled={lotId === ''} loading={lend.isPending}>
            {words.send[how]}
          </Button>
          {onCancel !== undefined && (
            <Button variant="subtle" onClick={onCancel}>
              {lend.data === 'kept' ? text.frame.close : text.frame.cancel}
            </Button>
          )}
        </Group>
      </Stack>
    </form>
  );
}
