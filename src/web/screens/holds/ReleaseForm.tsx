import { Button, NativeSelect, Stack, TextInput } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import type { Hold } from './hold-queries';

const words = text.holds;
const whole = '';

/** A hold is released whole or by the branch, and only on evidence. `branchId`: the branch that is looked at. */
export function ReleaseForm({ hold, branchId = whole }: { hold: Hold; branchId?: string }) {
  const { clubId } = useClub();
  const [lotId, setLot] = useState(branchId === hold.lot.id ? whole : branchId);
  const [because, setBecause] = useState('');
  const [evidence, setEvidence] = useState('');
  const params = { path: { clubId, id: hold.id } };
  const release = useMutation({
    mutationFn: () =>
      lotId === whole
        ? answer(
            api.POST('/api/v1/clubs/{clubId}/holds/{id}/release', {
              params,
              body: { because, evidence },
            }),
          )
        : answer(
            api.POST('/api/v1/clubs/{clubId}/holds/{id}/branch-releases', {
              params,
              body: { because, evidence, lotId },
            }),
          ),
    onSuccess: readAnew,
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    release.mutate();
  };
  const branches = hold.reached.filter((lot) => lot.lotId !== hold.lot.id);
  return (
    <form onSubmit={submit}>
      <Stack gap="xs">
        {branches.length > 0 && (
          <NativeSelect
            label={words.releaseWhat}
            value={lotId}
            onChange={(event) => setLot(event.currentTarget.value)}
            data={[
              { value: whole, label: words.wholeHold },
              ...branches.map((lot) => ({ value: lot.lotId, label: words.branch(lot.name) })),
            ]}
          />
        )}
        <TextInput
          label={words.because}
          required
          value={because}
          onChange={(event) => setBecause(event.currentTarget.value)}
        />
        <TextInput
          label={words.releaseEvidence}
          required
          value={evidence}
          onChange={(event) => setEvidence(event.currentTarget.value)}
        />
        {release.isError && <Failure error={release.error} />}
        <Button type="submit" variant="default" w="fit-content" loading={release.isPending}>
          {lotId === whole ? words.release : words.releaseBranch}
        </Button>
      </Stack>
    </form>
  );
}
