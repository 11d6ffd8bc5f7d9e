import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { useMembersBeside } from '../club/club-queries';
import { useLotsWithMass } from '../lots/lot-queries';
import { LoanForm, type LoanFormEnds } from './LoanForm';
import { bestLotFor, SeedSelect } from './SeedSelect';

const words = text.loans;

/** Seed of one's own for another member: handed over where the two stand together, or offered. Without a lot it is chosen. */
export function OfferForm({
  lot,
  holderId,
  ...ends
}: {
  lot?: { id: string; name: string };
  /** In whose name; nobody said: one's own. */
  holderId?: string;
} & LoanFormEnds) {
  const { memberId } = useClub();
  const lenderId = holderId ?? memberId;
  const others = useMembersBeside(lenderId);
  const { data: lots = [] } = useLotsWithMass('seed', lenderId);
  const [chosenId, setLot] = useState('');
  const [how, setHow] = useState<keyof typeof words.hows>('now');
  const [borrowerId, setBorrower] = useState('');
  const lotId = lot?.id ?? (chosenId === '' ? (bestLotFor(lots, 0)?.id ?? '') : chosenId);
  return (
    <LoanForm
      name={words.send[how]}
      send={words.send[how]}
      sent={words.sent[how]}
      wish={() => ({
        path: how === 'now' ? '' : '/offers',
        body: { lotId, borrowerId, ...(how === 'now' && { at: new Date().toISOString() }) },
      })}
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
