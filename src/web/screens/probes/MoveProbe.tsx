import { Button, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { useLocation } from 'wouter';
import { answer, api, ifMatch } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { WhenField } from '../../ui/WhenField';
import type { Probe } from './probe-queries';
import { SpotChoice, spotBody } from './SpotChoice';

const words = text.probes;

/** A probe goes elsewhere, or out; one that never read anything can be struck off. */
export function MoveProbe({ probe }: { probe: Probe }) {
  const { clubId } = useClub();
  const [, go] = useLocation();
  const { placement } = probe;
  const [spot, setSpot] = useState(
    placement === null
      ? ''
      : placement.batchId === null
        ? `station:${placement.stationId ?? ''}`
        : `batch:${placement.batchId}`,
  );
  const [movedAt, setMovedAt] = useState(new Date().toISOString());
  const path = { clubId, id: probe.id };
  const asItStands = async () => ({
    path,
    header: await ifMatch(api.GET('/api/v1/clubs/{clubId}/probes/{id}', { params: { path } })),
  });
  const move = useMutation({
    mutationFn: async () =>
      answer(
        api.PATCH('/api/v1/clubs/{clubId}/probes/{id}', {
          params: await asItStands(),
          body: { movedAt, ...(spot === '' ? { stationId: null } : spotBody(spot)) },
        }),
      ),
    onSuccess: readAnew,
  });
  const strikeOff = useMutation({
    mutationFn: async () =>
      answer(api.DELETE('/api/v1/clubs/{clubId}/probes/{id}', { params: await asItStands() })),
    onSuccess: async () => {
      go('/club/probes');
      await readAnew();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    move.mutate();
  };
  return (
    <Sheet title={words.move}>
      <form onSubmit={submit}>
        <Stack>
          <SpotChoice value={spot} onChange={setSpot} mayBeNowhere />
          <WhenField label={words.since} value={movedAt} onChange={setMovedAt} />
          {move.isError && <Failure error={move.error} />}
          <Button type="submit" w="fit-content" loading={move.isPending}>
            {words.moveIt}
          </Button>
        </Stack>
      </form>
      {probe.readings === 0 && (
        <>
          <Text mt="md">{words.strikeOffHint}</Text>
          {strikeOff.isError && <Failure error={strikeOff.error} />}
          <Button
            variant="default"
            mt="xs"
            loading={strikeOff.isPending}
            onClick={() => strikeOff.mutate()}
          >
            {words.strikeOff}
          </Button>
        </>
      )}
    </Sheet>
  );
}
