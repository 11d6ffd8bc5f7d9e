import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { releaseBooking, useNoShows, type NoShow } from './late-queries';

const words = text.room;

/** Bookings that run while nothing came in: somebody forgot to say so, or the places could be somebody else's. */
export function NoShowsSheet() {
  const { data: found = [] } = useNoShows();
  if (found.length === 0) return null;
  return (
    <Sheet title={words.noShows}>
      <ul className="rows">
        {found.map((noShow) => (
          <li key={noShow.bookingId} className="rows-part">
            <Row noShow={noShow} />
          </li>
        ))}
      </ul>
    </Sheet>
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
