import { Button, Stack, Text, TextInput } from '@mantine/core';
import { useState, type SyntheticEvent } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { MassField } from '../../ui/MassField';
import { useUnitWords } from '../../ui/units';
import { useLotsWithMass, type Lot } from '../lots/lot-queries';
import type { Loan } from './loan-queries';
import { loanSentence } from './loan-words';
import { bestLotFor, SeedSelect } from './SeedSelect';
import { useDeed } from './use-deed';

const words = text.loans;

/** Seed that was agreed on changes hands: from which lot, how much, back by when. */
export function HandOverForm({ loan, onDone }: { loan: Loan; onDone: () => void }) {
  const lots = useLotsWithMass('seed', loan.lender?.id ?? '');
  return (
    <Loaded query={lots}>{(items) => <Filled loan={loan} lots={items} onDone={onDone} />}</Loaded>
  );
}

function Filled({ loan, lots, onDone }: { loan: Loan; lots: Lot[]; onDone: () => void }) {
  const { memberId } = useClub();
  const { massUnit, mass } = useUnitWords();
  const [lotId, setLot] = useState(() => bestLotFor(lots, loan.massKg, loan.fromLot?.id)?.id ?? '');
  const [massKg, setMass] = useState<number | null>(loan.massKg);
  const [dueOn, setDue] = useState(loan.dueOn ?? '');
  const handOver = useDeed(
    `${words.deeds['hand-over']}: ${loanSentence(loan, memberId, mass(loan.massKg))}`,
    onDone,
  );
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    handOver.mutate({
      path: `/${loan.id}/handover`,
      body: {
        lotId,
        massKg: massKg ?? 0,
        at: new Date().toISOString(),
        ...(dueOn !== '' && { dueOn }),
      },
    });
  };
  return (
    <form onSubmit={submit}>
      <Stack gap="xs">
        <SeedSelect lots={lots} value={lotId} onChange={setLot} />
        <MassField label={words.mass(massUnit)} required valueKg={massKg} onChange={setMass} />
        <TextInput
          type="date"
          label={words.dueOn}
          value={dueOn}
          onChange={(event) => setDue(event.currentTarget.value)}
        />
        {handOver.isError && <Failure error={handOver.error} />}
        {handOver.data === 'kept' ? (
          <Text role="status">{words.kept}</Text>
        ) : (
          <Button
            type="submit"
            size="lg"
            w="fit-content"
            disabled={lots.length === 0}
            loading={handOver.isPending}
          >
            {words.sure['hand-over']}
          </Button>
        )}
      </Stack>
    </form>
  );
}
