import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Loaded } from '../../ui/Loaded';
import { useUnitWords } from '../../ui/units';
import { useMembersBeside } from '../club/club-queries';
import { useLotsWithMass, type Lot } from '../lots/lot-queries';
import { LoanForm, type LoanFormEnds } from './LoanForm';
import { bestLotFor, freeKgOf, SeedSelect } from './SeedSelect';

const words = text.loans;

type Given = LoanFormEnds & {
  lot?: { id: string; name: string };
  /** In whose name; nobody said: one's own. */
  holderId?: string;
};

/** Seed of one's own for another member: handed over where the two stand together, or offered. Without a lot it is chosen. */
export function OfferForm(given: Given) {
  const { memberId } = useClub();
  const lots = useLotsWithMass('seed', given.holderId ?? memberId);
  // What is lent is known: without a network the form opens all the same.
  if (given.lot !== undefined) return <Filled {...given} lots={lots.data ?? []} />;
  return <Loaded query={lots}>{(items) => <Filled {...given} lots={items} />}</Loaded>;
}

function Filled({ lot, holderId, lots, ...ends }: Given & { lots: Lot[] }) {
  const { memberId } = useClub();
  const { mass } = useUnitWords();
  const others = useMembersBeside(holderId ?? memberId);
  const [chosenId, setLot] = useState('');
  const [how, setHow] = useState<keyof typeof words.hows>('now');
  const [borrowerId, setBorrower] = useState('');
  const lotId = lot?.id ?? (chosenId === '' ? (bestLotFor(lots, 0)?.id ?? '') : chosenId);
  const chosen = lots.find(({ id }) => id === lotId);
  const borrower = others.find(({ value }) => value === borrowerId);
  return (
    <LoanForm
      told={(lent) => words.told(words.send[how], lent, borrower?.label ?? '')}
      send={words.send[how]}
      sent={words.sent[how]}
      wish={() => ({
        path: how === 'now' ? '' : '/offers',
        body: { lotId, borrowerId, ...(how === 'now' && { at: new Date().toISOString() }) },
      })}
      free={chosen && words.free(mass(freeKgOf(chosen)))}
      canSend={lotId !== ''}
      {...ends}
    >
      <Chips label={words.how} of={words.hows} value={how} onChange={setHow} />
      {lot === undefined && <SeedSelect lots={lots} value={lotId} onChange={setLot} />}
      <NativeSelect
        label={words.to}
        required
        value={borrowerId}
        onChange={(event) => setBorrower(event.currentTarget.value)}
        data={[{ value: '', label: '' }, ...others]}
      />
    </LoanForm>
  );
}
