import { text } from '../../text';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { walkByArrows } from '../../ui/walk-by-arrows';
import type { Station } from '../club/club-queries';
import { BookingBlock } from './BookingBlock';
import type { Booking, Closure, DutyWindow } from './room-queries';
import { RulesInWords } from './RulesInWords';
import { colours } from './station-colours';

const words = text.room;
const width = 1000;
const labelWidth = 34;
const headHeight = 46;

/** One station: a row for each place, time to the right. A block can be chosen by finger, mouse or keyboard. */
export function StationDrawing({
  station,
  days,
  bookings,
  knownUntil,
  closures,
  windows,
  onChoose,
}: {
  station: Station;
  days: Date[];
  bookings: Booking[];
  knownUntil: string | null;
  closures: Closure[];
  windows: DutyWindow[];
  onChoose: (booking: Booking) => void;
}) {
  const times = useTimes();
  const from = days[0]?.getTime() ?? 0;
  const to = days.at(-1)?.getTime() ?? 1;
  const rowHeight = station.places > 12 ? 12 : 24;
  const height = headHeight + station.places * rowHeight;
  const x = (at: string | Date) => {
    const share = (new Date(at).getTime() - from) / (to - from);
    return labelWidth + Math.min(1, Math.max(0, share)) * (width - labelWidth);
  };
  const isOneDay = days.length === 2;
  const marks = isOneDay ? hoursOf(days) : days.slice(0, -1);
  const free = isOneDay ? [] : freePlacesOf(days, station, bookings, closures);
  const isKnown = (index: number) =>
    knownUntil === null || (days[index + 1]?.getTime() ?? 0) <= Date.parse(knownUntil);
  return (
    <Sheet title={station.name}>
      <div className="scroll-x" tabIndex={0} role="group" aria-label={station.name}>
        <svg
          viewBox={`0 0 ${width} ${height}`}
          preserveAspectRatio="xMinYMin"
          className="station"
          role="group"
          onKeyDown={(event) => walkByArrows(event, '.block')}
        >
          {marks.map((mark, index) => (
            <g key={mark.toISOString()}>
              <line
                x1={x(mark)}
                x2={x(mark)}
                y1={14}
                y2={height}
                stroke="var(--line)"
                strokeWidth={1}
              />
              <text x={x(mark) + 3} y={22} fontSize={13} fill="currentColor">
                {isOneDay
                  ? times.time(mark)
                  : `${times.weekday(mark)} ${String(Number(times.isoDay(mark).slice(8)))}`}
              </text>
              {!isOneDay && (
                <>
                  <text x={x(mark) + 3} y={36} fontSize={12} fill="var(--ink-soft)">
                    {isKnown(index) ? words.freeShort(free[index] ?? 0) : '…'}
                  </text>
                  {isKnown(index) && (
                    <title>{words.freeOf(free[index] ?? 0, station.places)}</title>
                  )}
                </>
              )}
            </g>
          ))}
          {windows.map(({ id, startsAt, endsAt, duty }) => (
            <rect
              key={id}
              x={x(startsAt)}
              y={headHeight - 6}
              width={Math.max(0, x(endsAt) - x(startsAt))}
              height={5}
              fill={colours[duty]}
            >
              <title>{words.window(words.duties[duty])}</title>
            </rect>
          ))}
          {Array.from({ length: station.places }, (_, place) => (
            <g key={place}>
              <line
                x1={labelWidth}
                x2={width}
                y1={headHeight + place * rowHeight}
                y2={headHeight + place * rowHeight}
                stroke="var(--line)"
                strokeWidth={0.5}
              />
              {(rowHeight > 12 || (place + 1) % 5 === 0) && (
                <text
                  x={labelWidth - 6}
                  y={headHeight + place * rowHeight + rowHeight / 2 + 4}
                  fontSize={12}
                  textAnchor="end"
                  fill="var(--ink-soft)"
                >
                  {place + 1}
                </text>
              )}
            </g>
          ))}
          {closures.map(({ id, startsAt, endsAt, reason }) => (
            <rect
              key={id}
              x={x(startsAt)}
              y={headHeight}
              width={Math.max(0, x(endsAt) - x(startsAt))}
              height={height - headHeight}
              fill="var(--ink-soft)"
              fillOpacity={0.35}
            >
              <title>{words.closed(reason)}</title>
            </rect>
          ))}
          {bookings.map((booking, index) => (
            <BookingBlock
              key={booking.id}
              booking={booking}
              x={x}
              top={headHeight}
              rowHeight={rowHeight}
              isFirst={index === 0}
              onChoose={onChoose}
            />
          ))}
          {knownUntil !== null && (
            <rect
              x={x(knownUntil)}
              y={headHeight}
              width={width - x(knownUntil)}
              height={height - headHeight}
              fill="var(--sheet)"
              fillOpacity={0.8}
            >
              <title>{text.frame.loading}</title>
            </rect>
          )}
          <NowLine x={x} height={height} from={from} to={to} />
        </svg>
      </div>
      <RulesInWords windows={windows} closures={closures} from={from} to={to} />
    </Sheet>
  );
}

function NowLine({
  x,
  height,
  from,
  to,
}: {
  x: (at: Date) => number;
  height: number;
  from: number;
  to: number;
}) {
  const now = new Date();
  if (now.getTime() < from || now.getTime() > to) return null;
  return <line x1={x(now)} x2={x(now)} y1={14} y2={height} stroke="var(--late)" strokeWidth={2} />;
}

/** Of each day, how many places nothing touches. */
function freePlacesOf(
  days: Date[],
  station: Station,
  bookings: Booking[],
  closures: Closure[],
): number[] {
  const spanOf = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }) => ({
    start: Date.parse(startsAt),
    end: Date.parse(endsAt),
  });
  const closed = closures.map(spanOf);
  const booked = bookings.map((booking) => ({ ...spanOf(booking), places: booking.places }));
  return days.slice(0, -1).map((day, index) => {
    const touches = ({ start, end }: { start: number; end: number }) =>
      start < (days[index + 1]?.getTime() ?? 0) && end > day.getTime();
    if (closed.some(touches)) return 0;
    return station.places - new Set(booked.filter(touches).flatMap(({ places }) => places)).size;
  });
}

function hoursOf(days: Date[]): Date[] {
  const start = days[0]?.getTime() ?? 0;
  const end = days[1]?.getTime() ?? start;
  const hourMs = 3_600_000;
  return Array.from(
    { length: Math.ceil((end - start) / hourMs / 2) },
    (_, index) => new Date(start + index * 2 * hourMs),
  );
}
