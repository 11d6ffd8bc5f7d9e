import { Button, Stack, Text, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import type { components } from '../../api/schema';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { type Batch } from './batch-queries';

type Check = components['schemas']['CheckResponse'];

/** What was seen by who looked; a mistaken look can be struck out. */
export function Looks({ batch }: { batch: Batch }) {
  return (
    <Sheet title={text.batches.looks}>
      {batch.checks.length === 0 && <Text className="soft">{text.batches.noLooks}</Text>}
      <ul className="rows">
        {batch.checks.map((check) => (
          <li key={check.id}>
            <Look batchId={batch.id} check={check} />
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

function Look({ batchId, check }: { batchId: string; check: Check }) {
  const times = useTimes();
  const [isStriking, setStriking] = useState(false);
  const more = [
    check.texture === null ? null : text.batches.textures[check.texture],
    check.firmness === null ? null : text.batches.firmnesses[check.firmness],
    check.note === '' ? null : check.note,
  ].filter((word) => word !== null);
  return (
    <>
      <div className="row">
        <span className={check.struckOut === null ? undefined : 'struck'}>
          <strong>{text.batches.states[check.state]}</strong>
          <span className="soft">
            {times.dayAndTime(check.at)} · {text.batches.by(check.checkedBy.name)}
            {more.length > 0 && ` · ${more.join(', ')}`}
          </span>
        </span>
        {check.struckOut === null && (
          <Button variant="subtle" size="compact-md" onClick={() => setStriking(!isStriking)}>
            {text.batches.strikeOut}
          </Button>
        )}
      </div>
      {check.struckOut !== null && (
        <Text size="sm" mb="xs">
          {text.batches.struckOut(check.struckOut.by.name, check.struckOut.because)}
        </Text>
      )}
      {isStriking && check.struckOut === null && (
        <StrikeOut batchId={batchId} checkId={check.id} onDone={() => setStriking(false)} />
      )}
    </>
  );
}

function StrikeOut({
  batchId,
  checkId,
  onDone,
}: {
  batchId: string;
  checkId: string;
  onDone: () => void;
}) {
  const { clubId } = useClub();
  const [because, setBecause] = useState('');
  const strike = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/batches/{id}/setting-checks/{checkId}/strike-out', {
          params: { path: { clubId, id: batchId, checkId } },
          body: { because },
        }),
      ),
    onSuccess: async () => {
      await readAnew();
      onDone();
    },
  });
  return (
    <Stack gap="xs">
      <TextInput
        label={text.batches.strikeOutWhy}
        value={because}
        onChange={(event) => setBecause(event.currentTarget.value)}
      />
      {strike.isError && <Failure error={strike.error} />}
      <Button
        w="fit-content"
        disabled={because.trim() === ''}
        loading={strike.isPending}
        onClick={() => strike.mutate()}
      >
        {text.batches.strikeOut}
      </Button>
    </Stack>
  );
}
