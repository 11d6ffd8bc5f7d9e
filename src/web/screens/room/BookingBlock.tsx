import { useClub } from '../../api/club';
import { text } from '../../text';
import { useTimes } from '../../ui/times';
import type { Booking } from './room-queries';
import { colours } from './station-colours';

/** A booking as a block on each of its places, which can be chosen by finger, mouse or keyboard. */
export function BookingBlock({
  booking,
  x,
  top,
  rowHeight,
  onChoose,
}: {
  booking: Booking;
  x: (at: string) => number;
  top: number;
  rowHeight: number;
  onChoose: (booking: Booking) => void;
}) {
  const { memberId } = useClub();
  const times = useTimes();
  const isMine = booking.memberId === memberId;
  const width = x(booking.endsAt) - x(booking.startsAt);
  const name = rowHeight < leastRowForName ? '' : fitting(booking.memberName, width - 12);
  return (
    <g
      role="button"
      tabIndex={0}
      className="block"
      aria-label={text.room.bookedBy(
        booking.memberName,
        times.dayAndTime(booking.startsAt),
        times.dayAndTime(booking.endsAt),
      )}
      onClick={() => onChoose(booking)}
      onKeyDown={({ key }) => {
        if (key === 'Enter' || key === ' ') onChoose(booking);
      }}
    >
      {booking.places.map((place) => (
        // What a finger hits has no gaps between the places.
        <rect
          key={`hit ${String(place)}`}
          x={x(booking.startsAt)}
          y={top + (place - 1) * rowHeight}
          width={Math.max(3, x(booking.endsAt) - x(booking.startsAt))}
          height={rowHeight}
          fill="transparent"
        />
      ))}
      {booking.places.map((place) => (
        <rect
          key={place}
          x={x(booking.startsAt)}
          y={top + (place - 1) * rowHeight + 1.5}
          width={Math.max(3, x(booking.endsAt) - x(booking.startsAt) - 1)}
          height={rowHeight - 3}
          rx={3}
          fill={colours[booking.duty]}
          fillOpacity={isMine ? 0.95 : 0.4}
          stroke={colours[booking.duty]}
          strokeDasharray={booking.state === 'kept' ? '4 3' : ''}
        />
      ))}
      {name !== '' && (
        <text
          x={x(booking.startsAt) + 6}
          y={top + ((booking.places[0] ?? 1) - 1) * rowHeight + 16}
          fontSize={12}
          fill={isMine ? 'var(--sheet)' : 'var(--ink)'}
          aria-hidden="true"
        >
          {name}
        </text>
      )}
    </g>
  );
}

const leastRowForName = 20;
const letterWidth = 7;

/** As much of a name as there is room for; nothing when that tells nobody. */
function fitting(name: string, width: number): string {
  const letters = Math.floor(width / letterWidth);
  if (letters < 4) return '';
  return name.length <= letters ? name : `${name.slice(0, letters - 1)}…`;
}
