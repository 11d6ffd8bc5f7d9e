import { Button, Checkbox, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { Link } from 'wouter';
import { answer, answerWithTag, api, Refused } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { focusOn } from '../../ui/keep-focus';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { useUnitWords } from '../../ui/units';
import { WhenField } from '../../ui/WhenField';
import { useBooking, type Booking } from './room-queries';

const words = text.room;

/** One booking, and what its member or a steward can do with it. */
export function BookingPanel({ id, onDone }: { id: string; onDone: () => void }) {
  const booking = useBooking(id);
  const panel = useRef<HTMLDivElement>(null);
  const isThere = booking.data !== undefined;
  // It opens below what may be a high drawing, and is what comes next for whoever opened it.
  useEffect(() => {
    focusOn(panel.current?.querySelector('h2') ?? undefined);
  }, [isThere]);
  return (
    <div ref={panel}>
      <Loaded query={booking}>{(found) => <Panel booking={found} onDone={onDone} />}</Loaded>
    </div>
  );
}

function Panel({ booking, onDone }: { booking: Booking; onDone: () => void }) {
  const { clubId, memberId, role } = useClub();
  const times = useTimes();
  const { temperature } = useUnitWords();
  const [isMoving, setMoving] = useState(false);
  const path = { clubId, id: booking.id };
  const done = async () => {
    await readAnew();
    onDone();
  };
  const arrive = useMutation({
    mutationFn: (how: { otherPlaces?: true; placesAreClear?: true }) =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/bookings/{id}/arrival', { params: { path }, body: how }),
      ),
    onSuccess: done,
  });
  const release = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/bookings/{id}/release', { params: { path }, body: {} }),
      ),
    onSuccess: done,
  });
  const cancel = useMutation({
    mutationFn: async () => {
      const { etag } = await answerWithTag(
        api.GET('/api/v1/clubs/{clubId}/bookings/{id}', { params: { path } }),
      );
      return answer(
        api.DELETE('/api/v1/clubs/{clubId}/bookings/{id}', {
          params: { path, header: { 'If-Match': etag } },
        }),
      );
    },
    onSuccess: done,
  });
  const isMine = booking.memberId === memberId || role === 'steward';
  const hasBegun = new Date(booking.startsAt) <= new Date();
  const { error } = arrive;
  const notCleared =
    error instanceof Refused && error.code === 'places-not-cleared' ? error.problem : null;
  const failed = [arrive, release, cancel].find(({ isError }) => isError);
  return (
    <Sheet title={`${booking.stationName}, ${words.duties[booking.duty]}`}>
      <Text>
        {words.bookedBy(
          booking.memberName,
          times.dayAndTime(booking.startsAt),
          times.dayAndTime(booking.endsAt),
        )}
      </Text>
      <Text className="soft">
        {words.places(booking.places)} ·{' '}
        {words.band(temperature(booking.minC), temperature(booking.maxC))} ·{' '}
        {words.state[booking.state]}
        {booking.note !== '' && ` · ${booking.note}`}
      </Text>
      {failed !== undefined && <Failure error={failed.error} />}
      {notCleared !== null && (
        <Group mt="sm">
          {notCleared['hasOtherPlacesHere'] === true && (
            <Button variant="default" onClick={() => arrive.mutate({ otherPlaces: true })}>
              {words.otherPlaces}
            </Button>
          )}
          <Button variant="default" onClick={() => arrive.mutate({ placesAreClear: true })}>
            {words.placesAreClear}
          </Button>
        </Group>
      )}
      <Group mt="sm">
        {booking.batchId !== null && (
          <Button component={Link} href={`/batches/${booking.batchId}`} variant="default">
            {words.toBatch}
          </Button>
        )}
        {isMine && hasBegun && booking.arrivedAt === null && (
          <Button variant="default" onClick={() => arrive.mutate({})}>
            {words.arrived}
          </Button>
        )}
        {isMine && hasBegun && booking.clearedAt === null && (
          <Button variant="default" onClick={() => release.mutate()}>
            {words.release}
          </Button>
        )}
        {isMine && (
          <Button variant="default" onClick={() => setMoving(!isMoving)}>
            {words.move}
          </Button>
        )}
        {isMine && !hasBegun && (
          <Button variant="default" color="red" onClick={() => cancel.mutate()}>
            {words.cancelIt}
          </Button>
        )}
        <Button variant="subtle" onClick={onDone}>
          {text.frame.close}
        </Button>
      </Group>
      {isMoving && <Move booking={booking} onDone={done} />}
    </Sheet>
  );
}

function Move({ booking, onDone }: { booking: Booking; onDone: () => Promise<void> }) {
  const { clubId } = useClub();
  const [startsAt, setStart] = useState(booking.startsAt);
  const [endsAt, setEnd] = useState(booking.endsAt);
  const [moveTheRest, setRest] = useState(false);
  const path = { clubId, id: booking.id };
  const move = useMutation({
    mutationFn: async () => {
      const { etag } = await answerWithTag(
        api.GET('/api/v1/clubs/{clubId}/bookings/{id}', { params: { path } }),
      );
      return answer(
        api.PATCH('/api/v1/clubs/{clubId}/bookings/{id}', {
          params: { path, header: { 'If-Match': etag } },
          body: {
            ...(startsAt !== booking.startsAt && { startsAt }),
            ...(endsAt !== booking.endsAt && { endsAt }),
            ...(moveTheRest && { moveTheRest }),
          },
        }),
      );
    },
    onSuccess: onDone,
  });
  const upsets = move.error instanceof Refused && move.error.code === 'plan-upset';
  return (
    <Stack mt="md">
      <WhenField label={words.starts} value={startsAt} onChange={setStart} />
      <WhenField label={words.ends} value={endsAt} onChange={setEnd} />
      {move.isError && <Failure error={move.error} />}
      {(upsets || moveTheRest) && (
        <Checkbox
          label={words.moveTheRest}
          checked={moveTheRest}
          onChange={(event) => setRest(event.currentTarget.checked)}
        />
      )}
      <Button w="fit-content" loading={move.isPending} onClick={() => move.mutate()}>
        {words.move}
      </Button>
    </Stack>
  );
}
