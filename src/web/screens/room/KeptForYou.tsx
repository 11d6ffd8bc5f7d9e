import { Button, Group, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useClub } from '../../api/club';
import { readAnew } from '../../api/queries';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { leaveLine, takeOffer, useWaitingList, type WaitingWish } from './waiting-queries';

const words = text.room;

/** Places that became free and are kept for this member: to be taken in time, or let go. */
export function KeptForYou() {
  const { memberId } = useClub();
  const { data: line = [] } = useWaitingList();
  const mine = line.filter((wish) => wish.memberId === memberId && wish.state === 'offered');
  return mine.map((wish) => <Offer key={wish.id} wish={wish} />);
}

function Offer({ wish }: { wish: WaitingWish }) {
  const { clubId } = useClub();
  const times = useTimes();
  const take = useMutation({
    mutationFn: () => takeOffer(clubId, wish.id),
    onSettled: readAnew,
  });
  const leave = useMutation({
    mutationFn: () => leaveLine(clubId, wish.id),
    onSettled: readAnew,
  });
  const failed = [take, leave].find(({ isError }) => isError);
  if (wish.offer === null) return null;
  return (
    <Sheet title={words.keptForYou}>
      <Text fw={600}>
        {words.keptWords(
          wish.stationName,
          words.duties[wish.duty],
          words.places(wish.offer.places),
          times.dayAndTime(wish.offer.startsAt),
          times.dayAndTime(wish.offer.endsAt),
        )}
      </Text>
      {wish.offer.keptUntil !== null && (
        <Text className="late">{words.takeBy(times.dayAndTime(wish.offer.keptUntil))}</Text>
      )}
      {failed !== undefined && <Failure error={failed.error} />}
      <Group mt="sm">
        <Button size="lg" loading={take.isPending} onClick={() => take.mutate()}>
          {words.takeIt}
        </Button>
        <Button variant="default" loading={leave.isPending} onClick={() => leave.mutate()}>
          {words.letItGo}
        </Button>
      </Group>
    </Sheet>
  );
}
