import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState, type SyntheticEvent } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import type { Station } from '../club/club-queries';
import { ClosureFields, type ClosureValues } from './ClosureFields';
import { Consequence, consequenceOf } from './Consequence';

const words = text.stations;
const hourMs = 3_600_000;

/** Closes a station. Where bookings are in the way, it first tells what would become of each, and whom it would be told. */
export function ClosureForm({ station, onDone }: { station: Station; onDone: () => void }) {
  const { clubId } = useClub();
  const [values, setValues] = useState<ClosureValues>(() => ({
    startsAt: hourFromNow(24),
    endsAt: hourFromNow(48),
    reason: '',
  }));
  const close = useMutation({
    mutationFn: (bookings: 'move' | 'cancel' | undefined) =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/stations/{stationId}/closures', {
          params: { path: { clubId, stationId: station.id } },
          body: { ...values, ...(bookings !== undefined && { bookings }) },
        }),
      ),
    onSuccess: async ({ bookings = [] }) => {
      await readAnew();
      // What became of bookings stays to be read.
      if (bookings.length === 0) onDone();
    },
  });
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    close.mutate(undefined);
  };
  if (close.isSuccess) {
    return (
      <Stack className="rows-part" role="status">
        <Text fw={600}>{words.closed}</Text>
        <Consequence
          title={words.became}
          displaced={close.data.bookings ?? []}
          how={close.variables ?? 'move'}
        />
        <Button w="fit-content" variant="default" onClick={onDone}>
          {text.frame.understood}
        </Button>
      </Stack>
    );
  }
  const consequence = consequenceOf(close.error);
  return (
    <form onSubmit={submit} className="rows-part">
      <Stack>
        <ClosureFields
          value={values}
          onChange={(next) => {
            setValues(next);
            close.reset();
          }}
        />
        {consequence === null ? (
          <>
            {close.isError && <Failure error={close.error} />}
            <Group>
              <Button type="submit" loading={close.isPending}>
                {words.close}
              </Button>
              <Button variant="subtle" onClick={onDone}>
                {text.frame.cancel}
              </Button>
            </Group>
          </>
        ) : (
          <>
            <Consequence title={words.consequence} displaced={consequence} how="move" />
            <Group>
              <Button loading={close.isPending} onClick={() => close.mutate('move')}>
                {words.moveThem}
              </Button>
              <Button variant="default" color="red" onClick={() => close.mutate('cancel')}>
                {words.cancelThem}
              </Button>
              <Button variant="subtle" onClick={onDone}>
                {text.frame.cancel}
              </Button>
            </Group>
          </>
        )}
      </Stack>
    </form>
  );
}

function hourFromNow(hours: number): string {
  return new Date((Math.ceil(Date.now() / hourMs) + hours) * hourMs).toISOString();
}
