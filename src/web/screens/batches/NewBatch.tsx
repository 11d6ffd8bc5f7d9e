import { Button, Stack, Text, Textarea, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { lazy, Suspense, useState, type SyntheticEvent } from 'react';
import { Link, useLocation } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Empty } from '../../ui/Empty';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { Sheet } from '../../ui/Sheet';
import { useLotsWithMass } from '../lots/lot-queries';
import { LotMasses, type LotMass } from './LotMasses';

const SeedForHoney = lazy(async () => ({
  default: (await import('../seed/SeedForHoney')).SeedForHoney,
}));

export function NewBatch() {
  const { clubId, memberId } = useClub();
  const [, go] = useLocation();
  const lots = useLotsWithMass('honey', memberId);
  const [name, setName] = useState('');
  const [note, setNote] = useState('');
  const [honey, setHoney] = useState<LotMass[]>([]);
  const [seed, setSeed] = useState<LotMass[]>([]);
  const [isSeedAsked, setSeedAsked] = useState(false);
  const plan = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/batches', {
          params: { path: { clubId } },
          body: { name, honey, ...(seed.length > 0 && { seed }), note },
        }),
      ),
    onSuccess: async ({ id }) => {
      await readAnew();
      go(`/batches/${id}`);
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    plan.mutate();
  };
  return (
    <Screen title={text.batches.plan}>
      <Loaded query={lots}>
        {(items) =>
          items.length === 0 ? (
            <Empty
              action={
                <Button component={Link} href="/lots/new">
                  {text.lots.bringIn}
                </Button>
              }
            >
              {text.batches.noHoney}
            </Empty>
          ) : (
            <form onSubmit={submit}>
              <Stack>
                <Sheet>
                  <TextInput
                    label={text.batches.name}
                    description={text.batches.nameHint}
                    required
                    value={name}
                    onChange={(event) => setName(event.currentTarget.value)}
                  />
                </Sheet>
                <Sheet title={text.batches.honey}>
                  <LotMasses lots={items} value={honey} onChange={setHoney} />
                </Sheet>
                {honey.length > 0 && (
                  <details
                    className="sheet"
                    onToggle={(event) => setSeedAsked(event.currentTarget.open)}
                  >
                    <summary>{text.seed.forHoney}</summary>
                    <Text className="soft">{text.seed.forHoneyHint}</Text>
                    {isSeedAsked && (
                      <Suspense fallback={null}>
                        <SeedForHoney honey={honey} lots={items} value={seed} onChange={setSeed} />
                      </Suspense>
                    )}
                  </details>
                )}
                <Sheet>
                  <Textarea
                    label={text.batches.note}
                    value={note}
                    autosize
                    onChange={(event) => setNote(event.currentTarget.value)}
                  />
                </Sheet>
                {plan.isError && <Failure error={plan.error} />}
                <Button
                  type="submit"
                  loading={plan.isPending}
                  disabled={honey.length === 0}
                  w="fit-content"
                >
                  {text.batches.plan}
                </Button>
              </Stack>
            </form>
          )
        }
      </Loaded>
    </Screen>
  );
}
