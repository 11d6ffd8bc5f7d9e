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
  isFirst,
  onChoose,
}: {
  booking: Booking;
  x: (at: string) => number;
  top: number;
  rowHeight: number;
  /** The one that the Tab key leads to. */
  isFirst: boolean;
  onChoose: (booking: Booking) => void;
}) {
  const { memberId } = useClub();
  const times = useTimes();
  const isMine = booking.memberId === memberId;
  const width = x(booking.endsAt) - x(booking.startsAt);
  const name = rowHeight < leastRowForName ? '' : fitting(booking.memberName, width - 12);
  const colour = colours[booking.duty];
  /** One element for all of its places, each drawn in by so much above and below and at its end. */
  const path = (gap: number, endGap: number, radius: number) =>
    booking.places
      .map((place) =>
        roundBox(
          x(booking.startsAt),
          top + (place - 1) * rowHeight + gap,
          Math.max(3, width - endGap),
          rowHeight - 2 * gap,
          radius,
        ),
      )
      .join('');
  return (
    <g
      role="button"
      tabIndex={isFirst ? 0 : -1}
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
      <path
        d={path(1.5, 1, 3)}
        fill={colour}
        fillOpacity={isMine ? 0.95 : 0.4}
        stroke={colour}
        strokeDasharray={booking.state === 'kept' ? '4 3' : ''}
      />
      {/* What a finger hits has no gaps between the places. */}
      <path d={path(0, 0, 0)} fill="transparent" />
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

/** A box with round corners as a part of a path. */
function roundBox(left: number, top: number, width: number, height: number, radius: number) {
  const r = Math.min(radius, width / 2, height / 2);
  const [across, down] = [width - 2 * r, height - 2 * r].map((side) => Number(side.toFixed(1)));
  const corner = (x: number, y: number) => `a${r} ${r} 0 0 1 ${x} ${y}`;
  const start = `M${(left + r).toFixed(1)} ${top}`;
  return `${start}h${across}${corner(r, r)}v${down}${corner(-r, r)}h-${across}${corner(-r, -r)}v-${down}${corner(r, -r)}z`;
}

const leastRowForName = 20;
const letterWidth = 7;

/** As much of a name as there is room for; nothing when that tells nobody. */
function fitting(name: string, width: number): string {
  const letters = Math.floor(width / letterWidth);
  if (letters < 4) return '';
  return name.length <= letters ? name : `${name.slice(0, letters - 1)}…`;
}
