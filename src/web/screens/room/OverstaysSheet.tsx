import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { FirstFew } from '../../ui/FirstFew';
import { Folded } from '../../ui/Folded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { WhenField } from '../../ui/WhenField';
import { durationWords } from '../today/duration-words';
import type { BookingIdea } from './BookForm';
import { extendBooking, releaseBooking, useOverstays, type Overstay } from './late-queries';
import { lookThroughMs } from './look-through';

const words = text.room;

/** Honey that is not set, or not fetched, at the end of its booking; what can be done about each. That of others is folded away. */
export function OverstaysSheet({
  onBookElsewhere,
}: {
  onBookElsewhere: (idea: BookingIdea) => void;
}) {
  const { memberId } = useClub();
  const { data: found = [] } = useOverstays();
  const mine = found.filter((overstay) => overstay.memberId === memberId);
  const others = found.filter((overstay) => overstay.memberId !== memberId);
  const rows = (overstays: Overstay[]) => (
    <FirstFew items={overstays} count={3} more={20}>
      {(few) => (
        <ul className="rows">
          {few.map((overstay) => (
            <li key={overstay.bookingId} className="rows-part">
              <Row overstay={overstay} onBookElsewhere={onBookElsewhere} />
            </li>
          ))}
        </ul>
      )}
    </FirstFew>
  );
  return (
    <>
      {mine.length > 0 && <Sheet title={words.overstays}>{rows(mine)}</Sheet>}
      {others.length > 0 && (
        <Folded summary={<span className="late">{words.overstaysOfOthers(others.length)}</span>}>
          {() => rows(others)}
        </Folded>
      )}
    </>
  );
}

function Row({
  overstay,
  onBookElsewhere,
}: {
  overstay: Overstay;
  onBookElsewhere: (idea: BookingIdea) => void;
}) {
  const { clubId, memberId, role } = useClub();
  const times = useTimes();
  const { bookingId, batch, since, longestExtension, next, otherPlaces } = overstay;
  const isMine = overstay.memberId === memberId;
  const places = words.places(overstay.places);
  const [endsAt, setEnd] = useState(() => proposedEnd(overstay));
  const extend = useMutation({
    mutationFn: () => extendBooking(clubId, bookingId, endsAt),
    onSuccess: readAnew,
  });
  const clear = useMutation({
    mutationFn: () => releaseBooking(clubId, bookingId),
    onSuccess: readAnew,
  });
  const elsewhere = useMutation({
    mutationFn: async (there: { stationId: string; startsAt: string }): Promise<BookingIdea> => {
      // What is over says at which temperatures it stood.
      const { minC, maxC } = await answer(
        api.GET('/api/v1/clubs/{clubId}/bookings/{id}', {
          params: { path: { clubId, id: bookingId } },
        }),
      );
      const end = Date.parse(there.startsAt) + otherPlaces.minutes * 60_000;
      return {
        ...there,
        endsAt: new Date(end).toISOString(),
        duty: overstay.duty,
        minC,
        maxC,
        places: overstay.places.length,
        memberId: overstay.memberId,
        batchId: batch?.id ?? null,
      };
    },
    onSuccess: onBookElsewhere,
  });
  const failed = [extend, clear, elsewhere].find(({ isError }) => isError);
  const minutes = Math.round((Date.now() - Date.parse(since)) / 60_000);
  return (
    <Stack gap="xs">
      <Text fw={600}>
        {isMine
          ? words.myOverstay(overstay.stationName, places)
          : words.overstay(overstay.memberName, overstay.stationName, places)}
      </Text>
      <Text className="late">{words.since(durationWords(minutes), times.dayAndTime(since))}</Text>
      {batch !== null && (
        <Text>
          <Link href={`/batches/${batch.id}`}>{batch.name}</Link>
          {batch.setAt !== null && ` · ${words.hasSet(times.day(batch.setAt))}`}
          {batch.likelyUntil !== null && ` · ${words.likelySet(times.day(batch.likelyUntil))}`}
        </Text>
      )}
      {next.map((one) => (
        <Text key={one.bookingId}>
          {words.nextHere(one.memberName, words.places(one.places), times.dayAndTime(one.startsAt))}
        </Text>
      ))}
      <Text className="soft">
        {longestExtension === null
          ? words.extendNot
          : words.extendMost(times.dayAndTime(longestExtension))}
      </Text>
      {failed !== undefined && <Failure error={failed.error} />}
      {(isMine || role === 'steward') && (
        <>
          {longestExtension !== null && (
            <Group align="flex-end">
              <WhenField label={words.extendUntil} value={endsAt} onChange={setEnd} />
              <Button loading={extend.isPending} onClick={() => extend.mutate()}>
                {words.extend}
              </Button>
            </Group>
          )}
          <Group>
            <Button variant="default" loading={clear.isPending} onClick={() => clear.mutate()}>
              {words.release}
            </Button>
            {otherPlaces.stations.flatMap(({ stationId, stationName, freeTimes: [first] }) =>
              first === undefined ? (
                []
              ) : (
                <Button
                  key={stationId}
                  variant="default"
                  onClick={() => elsewhere.mutate({ stationId, startsAt: startWithin(first) })}
                >
                  {words.bookThere(stationName, times.dayAndTime(startWithin(first)))}
                </Button>
              ),
            )}
          </Group>
        </>
      )}
    </Stack>
  );
}

/** The first start that will do and is still ahead when somebody has looked through the form for it. */
function startWithin({ firstStart, lastStart }: { firstStart: string; lastStart: string }): string {
  const soon = Math.ceil((Date.now() + lookThroughMs) / lookThroughMs) * lookThroughMs;
  const start = Math.min(Math.max(Date.parse(firstStart), soon), Date.parse(lastStart));
  return new Date(start).toISOString();
}

/** Until it has likely set, as far as that is possible. Bookings end on whole minutes. */
function proposedEnd({ longestExtension, batch }: Overstay): string {
  const most = Date.parse(longestExtension ?? new Date().toISOString());
  const likely = Date.parse(batch?.likelyUntil ?? new Date(most).toISOString());
  return new Date(Math.min(most, Math.ceil(likely / 60_000) * 60_000)).toISOString();
}
