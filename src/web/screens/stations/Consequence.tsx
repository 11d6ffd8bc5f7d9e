import { Text } from '@mantine/core';
import { Refused } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { useTimes } from '../../ui/times';
import { useMembers } from '../club/club-queries';
import type { Displaced } from './station-queries';

const words = text.stations;

/** What becomes of the bookings that a closure comes over, and who is told. */
export function Consequence({
  title,
  displaced,
  how,
}: {
  title: string;
  displaced: Displaced[];
  how: 'move' | 'cancel';
}) {
  const { memberId } = useClub();
  const times = useTimes();
  const { data: members = [] } = useMembers();
  const nameOf = (id: string) => members.find((member) => member.id === id)?.name ?? '';
  const told = [...new Set(displaced.map((one) => one.memberId))].filter((id) => id !== memberId);
  return (
    <section aria-label={title}>
      <h3 className="part">{title}</h3>
      <ul>
        {displaced.map((one) => (
          <li key={one.bookingId}>
            {nameOf(one.memberId)}: {outcomeWords(one, how, times)}
          </li>
        ))}
      </ul>
      {told.length > 0 && <Text>{words.tells(told.map(nameOf).join(', '))}</Text>}
    </section>
  );
}

function outcomeWords(
  { outcome, startsAt, endsAt }: Displaced,
  how: 'move' | 'cancel',
  times: ReturnType<typeof useTimes>,
): string {
  if (outcome === 'moved' && startsAt !== null && endsAt !== null) {
    return words.outcomes.moved(`${times.dayAndTime(startsAt)} – ${times.dayAndTime(endsAt)}`);
  }
  if (outcome === 'shortened' && endsAt !== null) {
    return words.outcomes.shortened(times.dayAndTime(endsAt));
  }
  return how === 'move' ? words.outcomes.nowhere : words.outcomes.cancelled;
}

/** What moving the bookings in the way would come to, as a refused closure tells; null: it was not refused for them. */
export function consequenceOf(error: unknown): Displaced[] | null {
  if (!(error instanceof Refused) || error.code !== 'station-booked') return null;
  const { ifMoved } = error.problem;
  return Array.isArray(ifMoved) ? (ifMoved as Displaced[]) : null;
}
