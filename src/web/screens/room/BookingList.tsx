import { Text } from '@mantine/core';
import { text } from '../../text';
import { FirstFew } from '../../ui/FirstFew';
import { useTimes } from '../../ui/times';
import type { DiaryStation } from './diary';

const words = text.room;

/** What the drawings show, in words. */
export function BookingList({
  stations,
  onChoose,
}: {
  stations: DiaryStation[];
  onChoose: (bookingId: string) => void;
}) {
  const times = useTimes();
  const bookings = stations
    .flatMap(({ name, bookings: booked }) => booked.map((booking) => ({ ...booking, name })))
    .sort((one, other) => one.startsAt.localeCompare(other.startsAt));
  if (bookings.length === 0) return <Text className="soft">{words.nothing}</Text>;
  return (
    <FirstFew items={bookings} count={50} more={100}>
      {(few) => (
        <ul className="rows">
          {few.map((booking) => (
            <li key={booking.id}>
              <button
                type="button"
                className="row plain-button"
                onClick={() => onChoose(booking.id)}
              >
                <span>
                  <strong>
                    {booking.name}, {words.duties[booking.duty]}
                  </strong>
                  <span className="soft">
                    {booking.memberName} · {words.places(booking.places)}
                  </span>
                </span>
                <span className="row-end soft numbers">
                  {times.dayAndTime(booking.startsAt)}
                  <br />
                  {times.dayAndTime(booking.endsAt)}
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </FirstFew>
  );
}
