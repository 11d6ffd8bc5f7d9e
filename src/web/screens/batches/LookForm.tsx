import { Button, Stack } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import type { components } from '../../api/schema';
import { useSendOrKeep } from '../../offline/outbox';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Chips } from '../../ui/Chips';
import { WhenField } from '../../ui/WhenField';
import { type Batch } from './batch-queries';

type Look = components['schemas']['CheckRequest'];

/** Somebody looked: three large answers, and what more one saw. */
export function LookForm({
  batch,
  onDone,
}: {
  batch: Pick<Batch, 'id' | 'name'>;
  onDone: () => void;
}) {
  const { clubId } = useClub();
  const sendOrKeep = useSendOrKeep();
  const [at, setAt] = useState(new Date().toISOString());
  const [state, setState] = useState<Look['state'] | null>(null);
  const [texture, setTexture] = useState<Look['texture']>();
  const [firmness, setFirmness] = useState<Look['firmness']>();
  const file = useMutation({
    mutationFn: (seen: Look['state']) =>
      sendOrKeep(
        `/api/v1/clubs/${clubId}/batches/${batch.id}/setting-checks`,
        {
          at,
          state: seen,
          ...(texture !== undefined && { texture }),
          ...(firmness !== undefined && { firmness }),
        } satisfies Look,
        `${text.batches.states[seen]}: ${batch.name}`,
      ),
    onSuccess: async (how) => {
      // Without a network nothing new can be read: that it is kept is told at once.
      if (how === 'sent') await readAnew();
      onDone();
    },
  });
  return (
    <Stack gap="sm">
      <Chips
        label={text.batches.howIsIt}
        of={text.batches.states}
        value={state}
        onChange={setState}
      />
      {state !== null && (
        <>
          <Chips
            label={text.batches.texture}
            of={text.batches.textures}
            value={texture ?? null}
            onChange={setTexture}
          />
          {state === 'set' && (
            <Chips
              label={text.batches.firmness}
              of={text.batches.firmnesses}
              value={firmness ?? null}
              onChange={setFirmness}
            />
          )}
          <WhenField value={at} onChange={setAt} />
          {file.isError && <Failure error={file.error} />}
          <Button size="lg" loading={file.isPending} onClick={() => file.mutate(state)}>
            {text.batches.file}
          </Button>
        </>
      )}
    </Stack>
  );
}
