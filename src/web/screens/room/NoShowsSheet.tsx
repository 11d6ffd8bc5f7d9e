import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { FirstFew } from '../../ui/FirstFew';
import { Folded } from '../../ui/Folded';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { releaseBooking, useNoShows, type NoShow } from './late-queries';

const words = text.room;

/** Bookings that run while nothing came in: somebody forgot to say so, or the places could be somebody else's. Those of others are folded away. */
export function NoShowsSheet() {
  const { memberId } = useClub();
  const { data: found = [] } = useNoShows();
  const mine = found.filter((noShow) => noShow.memberId === memberId);
  const others = found.filter((noShow) => noShow.memberId !== memberId);
  return (
    <>
      {mine.length > 0 && (
        <Sheet title={words.noShows}>
          <Rows noShows={mine} />
        </Sheet>
      )}
      {others.length > 0 && (
        <Folded summary={words.noShowsOfOthers(others.length)}>
          {() => <Rows noShows={others} />}
        </Folded>
      )}
    </>
  );
}

function Rows({ noShows }: { noShows: NoShow[] }) {
  return (
    <FirstFew items={noShows} count={3} more={20}>
      {(few) => (
        <ul className="rows">
          {few.map((noShow) => (
            <li key={noShow.bookingId} className="rows-part">
              <Row noShow={noShow} />
            </li>
          ))}
        </ul>
      )}
    </FirstFew>
  );
}

function Row({ noShow }: { noShow: NoShow }) {
  const { clubId, memberId, role } = useClub();
  const times = useTimes();
  const id = noShow.bookingId;
  const arrive = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/bookings/{id}/arrival', {
          params: { path: { clubId, id } },
          body: {},
        }),
      ),
    onSuccess: readAnew,
  });
  const free = useMutation({
    mutationFn: () => releaseBooking(clubId, id, words.nobodyCameReason),
    onSuccess: readAnew,
  });
  const failed = [arrive, free].find(({ isError }) => isError);
  return (
    <Stack gap="xs">
      <Text fw={600}>
        {words.noShow(noShow.memberName, noShow.stationName, words.places(noShow.places))}
      </Text>
      <Text className="soft">
        {times.dayAndTime(noShow.startsAt)} – {times.dayAndTime(noShow.endsAt)}.{' '}
        {words.expectedBy(times.dayAndTime(noShow.expectedBy))}
      </Text>
      {failed !== undefined && <Failure error={failed.error} />}
      {(noShow.memberId === memberId || role === 'steward') && (
        <Group>
          <Button variant="default" loading={arrive.isPending} onClick={() => arrive.mutate()}>
            {words.arrived}
          </Button>
          <Button variant="default" loading={free.isPending} onClick={() => free.mutate()}>
            {words.nobodyCame}
          </Button>
        </Group>
      )}
    </Stack>
  );
}
