import { Alert, Button, Group, Stack, Text, Textarea, TextInput } from '@mantine/core';
import { useMutation, useQuery } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import type { Lot } from './lot-queries';

const words = text.holds;

/** Stops a suspect line: holds on the lot, where it went, and a practised trace. */
export function HoldSheet({ lot }: { lot: Lot }) {
  const { clubId } = useClub();
  const { mass } = useUnitWords();
  const base = `/api/v1/clubs/${clubId}/lots/${lot.id}`;
  const drill = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/lots/{id}/recall-drills', {
          params: { path: { clubId, id: lot.id } },
        }),
      ),
  });
  return (
    <Sheet title={words.title}>
      <Stack>
        {lot.onHold.map((id) => (
          <OpenHold key={id} id={id} lot={lot} />
        ))}
        <PlaceHold lot={lot} />
        <Group>
          <Button component="a" variant="default" href={`${base}/recall.html`} target="_blank">
            {words.recall}
          </Button>
          <Button component="a" variant="default" href={`${base}/recall.csv`}>
            {words.recallCsv}
          </Button>
          <Button variant="default" loading={drill.isPending} onClick={() => drill.mutate()}>
            {words.drill}
          </Button>
        </Group>
        {drill.isError && <Failure error={drill.error} />}
        {drill.data !== undefined && (
          <Text role="status">
            {words.drilled(
              drill.data.durationMs,
              drill.data.lots,
              drill.data.holders,
              mass(drill.data.foundKg),
            )}
          </Text>
        )}
      </Stack>
    </Sheet>
  );
}

function OpenHold({ id, lot }: { id: string; lot: Lot }) {
  const { clubId } = useClub();
  const times = useTimes();
  const [because, setBecause] = useState('');
  const [evidence, setEvidence] = useState('');
  const hold = useQuery({
    queryKey: ['hold', clubId, id],
    queryFn: () =>
      answer(api.GET('/api/v1/clubs/{clubId}/holds/{id}', { params: { path: { clubId, id } } })),
  });
  const release = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/holds/{id}/release', {
          params: { path: { clubId, id } },
          body: { because, evidence },
        }),
      ),
    onSuccess: readAnew,
  });
  const releaseBranch = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/holds/{id}/branch-releases', {
          params: { path: { clubId, id } },
          body: { because, evidence, lotId: lot.id },
        }),
      ),
    onSuccess: readAnew,
  });
  const failed = [release, releaseBranch].find(({ isError }) => isError);
  return (
    <Alert color="red" variant="light" title={words.onHold}>
      <Loaded query={hold}>
        {({ reason, evidence: grounds, placedAt, placedBy, lot: source }) => (
          <Stack gap="xs">
            <Text>
              {reason} {grounds}
            </Text>
            <Text>{words.placedBy(placedBy.name, times.date(placedAt))}</Text>
            {source.id !== lot.id && (
              <Link href={`/lots/${source.id}`}>{words.from(source.name)}</Link>
            )}
            <details>
              <summary>{words.release}</summary>
              <Stack gap="xs">
                <TextInput
                  label={words.because}
                  value={because}
                  onChange={(event) => setBecause(event.currentTarget.value)}
                />
                <TextInput
                  label={words.evidence}
                  value={evidence}
                  onChange={(event) => setEvidence(event.currentTarget.value)}
                />
                {failed !== undefined && <Failure error={failed.error} />}
                <Group>
                  <Button
                    variant="default"
                    loading={release.isPending}
                    onClick={() => release.mutate()}
                  >
                    {words.release}
                  </Button>
                  {source.id !== lot.id && (
                    <Button
                      variant="default"
                      loading={releaseBranch.isPending}
                      onClick={() => releaseBranch.mutate()}
                    >
                      {words.releaseBranch}
                    </Button>
                  )}
                </Group>
              </Stack>
            </details>
          </Stack>
        )}
      </Loaded>
    </Alert>
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
    <details>
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
