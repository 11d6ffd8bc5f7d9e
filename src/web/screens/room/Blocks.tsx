import { useMemo } from 'react';
import { useClub } from '../../api/club';
import type { DiaryBooking } from './diary';
import { colours } from './station-colours';
import type { StationPlan } from './station-plan';

const blockGap = 1.5;

/** What is booked, as blocks. All that look alike are one path: a full room has thousands. */
export function Blocks({ plan, bookings }: { plan: StationPlan; bookings: DiaryBooking[] }) {
  const { memberId } = useClub();
  const alike = useMemo(() => {
    const byLook = new Map<string, DiaryBooking[]>();
    for (const booking of bookings) {
      const look = `${booking.duty} ${String(booking.memberId === memberId)} ${booking.state}`;
      const same = byLook.get(look);
      if (same === undefined) byLook.set(look, [booking]);
      else same.push(booking);
    }
    return [...byLook].map(([look, same]) => ({
      look,
      one: same[0],
      path: same.map((booking) => blockPath(plan, booking, blockGap)).join(''),
    }));
  }, [plan, bookings, memberId]);
  return (
    <>
      {alike.map(
        ({ look, one, path }) =>
          one !== undefined && (
            <path
              key={look}
              className="blocks"
              d={path}
              fill={colours[one.duty]}
              fillOpacity={one.memberId === memberId ? 0.95 : 0.4}
              stroke={colours[one.duty]}
              strokeDasharray={one.state === 'kept' ? '4 3' : ''}
            />
          ),
      )}
      {plan.rowHeight >= leastRowForName &&
        bookings.map((booking) => {
          const name = fitting(
            booking.memberName,
            plan.x(booking.endsAt) - plan.x(booking.startsAt) - 12,
          );
          return (
            name !== '' && (
              <text
                key={booking.id}
                x={plan.x(booking.startsAt) + 6}
                y={plan.y(booking.places[0] ?? 1) + 16}
                fontSize={12}
                fill={booking.memberId === memberId ? 'var(--sheet)' : 'var(--ink)'}
                aria-hidden="true"
              >
                {name}
              </text>
            )
          );
        })}
    </>
  );
}

/** A block on each of the booking's places, drawn in by so much from its row, so that neighbours stay apart. */
export function blockPath(
  { x, y, rowHeight }: StationPlan,
  booking: DiaryBooking,
  gap: number,
): string {
  const start = x(booking.startsAt);
  const width = Math.max(3, x(booking.endsAt) - start - 1);
  return booking.places
    .map((place) => roundBox(start, y(place) + gap, width, rowHeight - 2 * gap))
    .join('');
}

const cornerRadius = 3;

/** A box with round corners as a part of a path. */
function roundBox(left: number, top: number, width: number, height: number) {
  const r = Math.min(cornerRadius, width / 2, height / 2);
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
