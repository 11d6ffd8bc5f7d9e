import { Button, Stack, Text } from '@mantine/core';
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
import { bestLotFor, freeKgOf, SeedSelect } from './SeedSelect';
import { useDeed } from './use-deed';

const words = text.loans;

/** All that is owed or a part of it goes back, in kind: from which lot of the borrower's. */
export function GiveBackForm({ loan, onDone }: { loan: Loan; onDone: () => void }) {
  const lots = useLotsWithMass('seed', loan.borrower.id);
  return (
    <Loaded query={lots}>{(items) => <Filled loan={loan} lots={items} onDone={onDone} />}</Loaded>
  );
}

function Filled({ loan, lots, onDone }: { loan: Loan; lots: Lot[]; onDone: () => void }) {
  const { memberId } = useClub();
  const { massUnit, mass } = useUnitWords();
  const best = bestLotFor(lots, loan.owedMassKg);
  const [lotId, setLot] = useState(best?.id ?? '');
  const [massKg, setMass] = useState<number | null>(() =>
    best === null ? loan.owedMassKg : Math.min(loan.owedMassKg, freeKgOf(best)),
  );
  const giveBack = useDeed(
    `${words.deeds.return}: ${loanSentence(loan, memberId, mass(loan.massKg))}`,
    onDone,
  );
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    giveBack.mutate({
      path: `/${loan.id}/returns`,
      body: { lotId, massKg: massKg ?? 0, at: new Date().toISOString() },
    });
  };
  return (
    <form onSubmit={submit}>
      <Stack gap="xs">
        <SeedSelect lots={lots} value={lotId} onChange={setLot} />
        <MassField
          label={words.mass(massUnit)}
          description={words.stillOwed(mass(loan.owedMassKg))}
          required
          valueKg={massKg}
          onChange={setMass}
        />
        {giveBack.isError && <Failure error={giveBack.error} />}
        {giveBack.data === 'kept' ? (
          <Text role="status">{words.kept}</Text>
        ) : (
          <Button
            type="submit"
            size="lg"
            w="fit-content"
            disabled={lots.length === 0}
            loading={giveBack.isPending}
          >
            {words.sure.return}
          </Button>
        )}
      </Stack>
    </form>
  );
}
