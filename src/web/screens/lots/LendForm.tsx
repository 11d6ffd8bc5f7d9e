import { Button, NativeSelect, Stack, Text, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { MassField } from '../../ui/MassField';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import { useMembers } from '../club/club-queries';
import type { Lot } from './lot-queries';

const words = text.lots;

/** Seed handed to another member: their lot is made and this one drawn down, at once. */
export function LendForm({ lot }: { lot: Lot }) {
  const { clubId } = useClub();
  const { massUnit } = useUnitWords();
  const members = useMembers();
  const [borrowerId, setBorrower] = useState('');
  const [massKg, setMass] = useState<number | null>(null);
  const [dueOn, setDue] = useState('');
  const lend = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/loans', {
          params: { path: { clubId } },
          body: {
            lotId: lot.id,
            borrowerId,
            massKg: massKg ?? 0,
            at: new Date().toISOString(),
            ...(dueOn !== '' && { dueOn }),
          },
        }),
      ),
    onSuccess: async () => {
      setMass(null);
      await readAnew();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    lend.mutate();
  };
  const others = (members.data ?? []).filter(
    ({ id, leftAt }) => id !== lot.holder.id && leftAt === null,
  );
  return (
    <Sheet title={words.lend}>
      <form onSubmit={submit}>
        <Stack>
          <NativeSelect
            label={words.borrower}
            required
            value={borrowerId}
            onChange={(event) => setBorrower(event.currentTarget.value)}
            data={[
              { value: '', label: '' },
              ...others.map(({ id, name }) => ({ value: id, label: name })),
            ]}
          />
          <MassField label={words.mass(massUnit)} required valueKg={massKg} onChange={setMass} />
          <TextInput
            type="date"
            label={words.due}
            value={dueOn}
            onChange={(event) => setDue(event.currentTarget.value)}
          />
          {lend.isError && <Failure error={lend.error} />}
          {lend.isSuccess && <Text role="status">{words.lent}</Text>}
          <Button type="submit" w="fit-content" loading={lend.isPending}>
            {words.lend}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
