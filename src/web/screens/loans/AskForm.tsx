import { NativeSelect, Text } from '@mantine/core';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { useMembersBeside } from '../club/club-queries';
import { LoanForm, type LoanFormEnds } from './LoanForm';

const words = text.loans;

/** A wish for seed: to one member, to anybody, or for one lot of its holder's. */
export function AskForm({
  lot,
  holder,
  massKg = null,
  ...ends
}: {
  lot?: { id: string; name: string };
  holder?: { id: string; name: string };
  massKg?: number | null;
} & LoanFormEnds) {
  const { memberId } = useClub();
  const others = useMembersBeside(memberId);
  const [lenderId, setLender] = useState(holder?.id ?? '');
  const lender = holder?.name ?? others.find(({ value }) => value === lenderId)?.label;
  return (
    <LoanForm
      told={(mass) => words.told(words.ask, mass, lender ?? words.fromAnybody)}
      send={words.send.ask}
      sent={words.sent.ask}
      wish={() => ({
        path: '/asks',
        body: {
          ...(lenderId !== '' && { lenderId }),
          ...(lot !== undefined && { lotId: lot.id }),
        },
      })}
      massKg={massKg}
      {...ends}
    >
      {lot === undefined ? (
        <NativeSelect
          label={words.from}
          value={lenderId}
          onChange={(event) => setLender(event.currentTarget.value)}
          data={[{ value: '', label: words.fromAnybody }, ...others]}
        />
      ) : (
        <Text>
          {holder?.name}: {lot.name}
        </Text>
      )}
    </LoanForm>
  );
}
