import { Button, Stack, Text, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { timeWords } from '../../ui/times';
import { LotMasses, type LotMass } from '../batches/LotMasses';
import type { Lot } from '../lots/lot-queries';
import type { Plan, PlanRequest } from './plan-queries';

const words = text.plan;
const dayMs = 86_400_000;
const daysAhead = 14;

export function PlanForm({ lots, onPlan }: { lots: Lot[]; onPlan: (plan: Plan) => void }) {
  const { clubId, timeZone } = useClub();
  const [name, setName] = useState('');
  const [honey, setHoney] = useState<LotMass[]>([]);
  const [latestPotDay, setLatest] = useState(() =>
    timeWords(timeZone).isoDay(new Date(Date.now() + daysAhead * dayMs)),
  );
  const [wish, setWish] = useState<NonNullable<PlanRequest['wish']>>('soonest');
  const [certainty, setCertainty] = useState<keyof typeof words.certainties>('80');
  const ask = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/plans', {
          params: { path: { clubId } },
          body: { name, honey, latestPotDay, wish, certaintyPercent: Number(certainty) },
        }),
      ),
    onSuccess: onPlan,
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    ask.mutate();
  };
  return (
    <Sheet>
      <form onSubmit={submit}>
        <Stack>
          <TextInput
            label={words.name}
            required
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <fieldset className="bare">
            <legend>{words.honey}</legend>
            <LotMasses lots={lots} value={honey} onChange={setHoney} />
          </fieldset>
          <TextInput
            type="date"
            label={words.latest}
            required
            value={latestPotDay}
            onChange={(event) => setLatest(event.currentTarget.value)}
          />
          <Chips label={words.wish} of={words.wishes} value={wish} onChange={setWish} />
          <Chips
            label={words.certainty}
            of={words.certainties}
            value={certainty}
            onChange={setCertainty}
          />
          {ask.isError && <Failure error={ask.error} />}
          {ask.isPending && <Text role="status">{words.asking}</Text>}
          <Button
            type="submit"
            size="lg"
            w="fit-content"
            loading={ask.isPending}
            disabled={honey.length === 0}
          >
            {words.ask}
          </Button>
        </Stack>
      </form>
    </Sheet>
  );
}
