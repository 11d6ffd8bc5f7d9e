import { Button, Group, Stack, Text, Textarea, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { DrillButton } from '../holds/DrillButton';
import { OpenHold } from '../holds/OpenHold';
import type { Lot } from './lot-queries';

const words = text.holds;

/** Stops a suspect line: the holds that reach the lot, a new one, where it went, and a practised trace. */
export function HoldSheet({ lot }: { lot: Lot }) {
  return (
    <Sheet title={lot.onHold.length > 0 ? text.seed.onHold : words.title}>
      <Stack>
        {lot.onHold.map((id) => (
          <OpenHold key={id} id={id} atLotId={lot.id} />
        ))}
        <PlaceHold lot={lot} />
        <Group className="no-print">
          <Button component={Link} variant="default" href={`/lots/${lot.id}/recall`}>
            {words.recall}
          </Button>
          <DrillButton lotId={lot.id} />
        </Group>
      </Stack>
    </Sheet>
  );
}

function PlaceHold({ lot }: { lot: Lot }) {
  const { clubId } = useClub();
  const [reason, setReason] = useState('');
  const [evidence, setEvidence] = useState('');
  const place = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/lots/{id}/holds', {
          params: { path: { clubId, id: lot.id } },
          body: { reason, evidence },
        }),
      ),
    onSuccess: async () => {
      setReason('');
      setEvidence('');
      await readAnew();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    place.mutate();
  };
  return (
    <details className="no-print">
      <summary>{words.place}</summary>
      <form onSubmit={submit}>
        <Stack gap="xs">
          <Text className="soft">{words.intro}</Text>
          <TextInput
            label={words.reason}
            required
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          <Textarea
            label={words.evidence}
            autosize
            value={evidence}
            onChange={(event) => setEvidence(event.currentTarget.value)}
          />
          {place.isError && <Failure error={place.error} />}
          <Button type="submit" color="red" w="fit-content" loading={place.isPending}>
            {words.place}
          </Button>
        </Stack>
      </form>
    </details>
  );
}
