import { Button, Group, Stack } from '@mantine/core';
import { Refused } from '../../api/client';
import { text } from '../../text';
import type { Station } from '../club/club-queries';
import { InTheWay } from './InTheWay';
import type { StationChange } from './station-queries';

const words = text.stations;

interface Offers {
  /** The fewest places that work now. */
  places?: number;
  /** Which places each booking in the way would get; null: none. */
  ifOtherPlaces?: { bookingId: string; places: number[] | null }[];
  /** The duties asked for, with those and so wide as they are needed. */
  duties?: Station['duties'];
  /** The longest that works now. */
  changeoverMinutes?: number;
}

/** Who still needs what a change would take away, and what would work instead, to be taken with one tap. */
export function WouldWork({
  error,
  station,
  isPending,
  onTake,
}: {
  error: unknown;
  station: Station;
  isPending: boolean;
  onTake: (instead: StationChange) => void;
}) {
  if (!(error instanceof Refused)) return null;
  if (!['still-needed', 'other-duty'].includes(error.code)) return null;
  const { places, ifOtherPlaces = [], duties, changeoverMinutes } = error.problem as Offers;
  const canAllMove = ifOtherPlaces.length > 0 && ifOtherPlaces.every((one) => one.places !== null);
  const noteOf = (id: string) => {
    const numbers = ifOtherPlaces.find(({ bookingId }) => bookingId === id)?.places ?? null;
    return numbers === null ? undefined : words.wouldGet(text.room.places(numbers));
  };
  const offers: [string, StationChange][] = [
    ...(canAllMove ? [offer(words.otherPlaces, { otherPlaces: true })] : []),
    ...(places !== undefined && places < station.places
      ? [offer(words.makeItPlaces(text.room.placesCount(places)), { places })]
      : []),
    ...(duties !== undefined ? [offer(words.keepDuties, { duties })] : []),
    ...(changeoverMinutes !== undefined
      ? [offer(words.takeMinutes(changeoverMinutes), { changeoverMinutes })]
      : []),
  ];
  return (
    <Stack>
      <InTheWay error={error} advice={words.moveOrWait} noteOf={noteOf} />
      <Group>
        {offers.map(([label, instead]) => (
          <Button key={label} variant="default" loading={isPending} onClick={() => onTake(instead)}>
            {label}
          </Button>
        ))}
      </Group>
    </Stack>
  );
}

function offer(label: string, instead: StationChange): [string, StationChange] {
  return [label, instead];
}
