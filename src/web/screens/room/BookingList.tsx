import { Button, Text } from '@mantine/core';
import { useState } from 'react';
import { text } from '../../text';
import { useTimes } from '../../ui/times';
import type { Booking } from './room-queries';

const words = text.room;
const shownAtFirst = 50;

/** What the drawing shows, in words. */
export function BookingList({
  bookings,
  onChoose,
}: {
  bookings: Booking[];
  onChoose: (booking: Booking) => void;
}) {
  const times = useTimes();
  const [shown, setShown] = useState(shownAtFirst);
  if (bookings.length === 0) return <Text className="soft">{words.nothing}</Text>;
  return (
    <>
      <ul className="rows">
        {bookings.slice(0, shown).map((booking) => (
          <li key={booking.id}>
            <button type="button" className="row plain-button" onClick={() => onChoose(booking)}>
              <span>
                <strong>
                  {booking.stationName}, {words.duties[booking.duty]}
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
      {bookings.length > shown && (
        <Button variant="default" onClick={() => setShown(shown + 100)}>
          {text.frame.more}
        </Button>
      )}
    </>
  );
}
