import { Button, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Failure } from '../../ui/Failure';
import { MassField } from '../../ui/MassField';
import { Sheet } from '../../ui/Sheet';
import { useUnitWords } from '../../ui/units';
import type { Lot } from './lot-queries';

const words = text.lots;

/** Mass that leaves a lot and goes into no other. */
export function TakeOutForm({ lot }: { lot: Lot }) {
  const { clubId } = useClub();
  const { massUnit } = useUnitWords();
  const [kind, setKind] = useState<components['schemas']['WithdrawalRequest']['kind']>('used');
  const [massKg, setMass] = useState<number | null>(null);
  const [note, setNote] = useState('');
  const take = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/lots/{id}/withdrawals', {
          params: { path: { clubId, id: lot.id } },
          body: { kind, massKg: massKg ?? 0, at: new Date().toISOString(), note },
        }),
      ),
    onSuccess: async () => {
      setMass(null);
      await readAnew();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    take.mutate();
  };
  return (
    <Sheet title={words.takeOut}>
      <form onSubmit={submit}>
        <Stack>
          <Chips label={words.what} of={words.takeOutKinds} value={kind} onChange={setKind} />
          <MassField label={words.mass(massUnit)} required valueKg={massKg} onChange={setMass} />
          <TextInput
            label={words.note}
            value={note}
            onChange={(event) => setNote(event.currentTarget.value)}
          />
          {take.isError && <Failure error={take.error} />}
          <Button type="submit" w="fit-content" loading={take.isPending}>
            {words.takeOut}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
