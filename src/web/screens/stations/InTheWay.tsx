import { Text } from '@mantine/core';
import { Link } from 'wouter';
import { Refused } from '../../api/client';
import { text } from '../../text';
import { useTimes } from '../../ui/times';
import { mostNamed, useNamedBookings } from './station-queries';

const words = text.stations;

interface Told {
  /** What can be done about them. */
  advice?: string;
  /** What would become of one of them. */
  noteOf?: (id: string) => string | undefined;
}

/** The bookings that a refusal names, one by one, and where they can be moved. */
export function InTheWay({ error, ...told }: { error: unknown } & Told) {
  const ids = bookingsInTheWay(error);
  if (ids.length === 0) return null;
  return <Named ids={ids} {...told} />;
}

function Named({
  ids,
  advice = words.moveFirst,
  noteOf = () => undefined,
}: { ids: string[] } & Told) {
  const times = useTimes();
  const { data: bookings = [] } = useNamedBookings(ids);
  return (
    <section aria-label={words.inTheWay}>
      <h3 className="part">{words.inTheWay}</h3>
      <ul>
        {bookings.map(({ id, memberName, startsAt, endsAt }) => (
          <li key={id}>
            {[
              words.booking(memberName, times.dateAndTime(startsAt), times.dateAndTime(endsAt)),
              noteOf(id),
            ]
              .filter(Boolean)
              .join(': ')}
          </li>
        ))}
        {ids.length > mostNamed && <li>{words.andMore(ids.length - mostNamed)}</li>}
      </ul>
      <Text>{advice}</Text>
      <Link href="/room" className="way-in">
        {words.toRoom}
      </Link>
    </section>
  );
}

const codes = ['station-booked', 'still-needed', 'other-duty'];

/** The ids in a refusal that says that bookings are in the way. */
export function bookingsInTheWay(error: unknown): string[] {
  if (!(error instanceof Refused) || !codes.includes(error.code)) return [];
  const { bookings } = error.problem;
  return Array.isArray(bookings) ? (bookings as string[]) : [];
}
