import { memo, useMemo, type MouseEvent } from 'react';
import { text } from '../../text';
import { useIsWide } from '../../ui/is-wide';
import { Sheet } from '../../ui/Sheet';
import { useTimes } from '../../ui/times';
import { BlockCursor } from './BlockCursor';
import { Blocks } from './Blocks';
import { freePlacesOf } from './free-places';
import type { Diary, DiaryStation } from './diary';
import { RulesInWords } from './RulesInWords';
import { colours } from './station-colours';
import { bookingAt, stationPlan, type StationPlan } from './station-plan';

const words = text.room;

/** How far from a block a finger may come down. */
const reachPx = 10;

/** Drawn at its own size, where it can be slid: letters stay large enough to be read on a phone. */
const narrowWidth = 800;

interface Drawn {
  station: DiaryStation;
  days: Date[];
  /** When people may come in. */
  open: Diary['open'];
  /** Of what starts later not all is told. */
  toldUntil: string;
  onChoose: (bookingId: string) => void;
}

/** One station: a row for each place, time to the right. A block can be chosen by finger, mouse or keyboard. */
export const StationDrawing = memo(function StationDrawing({
  station,
  days,
  open,
  toldUntil,
  onChoose,
}: Drawn) {
  const from = days[0] ?? new Date();
  const to = days.at(-1) ?? from;
  const width = useIsWide() ? 1000 : narrowWidth;
  const plan = useMemo(
    () => stationPlan(station.places, from, to, width),
    [station.places, from, to, width],
  );
  const bookings = useMemo(() => within(from, to, station.bookings), [from, to, station.bookings]);
  const closures = within(from, to, station.closures);
  const dutyWindows = within(from, to, station.dutyWindows);
  const { x, top, height } = plan;
  const chooseAt = (event: MouseEvent<SVGSVGElement>) => {
    const toScreen = event.currentTarget.getScreenCTM();
    if (toScreen === null) return;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(toScreen.inverse());
    const booking = bookingAt(plan, bookings, point, reachPx / toScreen.a);
    if (booking !== undefined) onChoose(booking.id);
  };
  return (
    <Sheet title={station.name}>
      <div className="scroll-x" tabIndex={0} role="group" aria-label={station.name}>
        <svg
          viewBox={`0 0 ${width} ${height}`}
          preserveAspectRatio="xMinYMin"
          className="station"
          role="group"
          onClick={chooseAt}
        >
          {days.length === 2 ? (
            <Hours plan={plan} from={from} to={to} />
          ) : (
            <Days plan={plan} days={days} station={station} toldUntil={toldUntil} />
          )}
          {dutyWindows.map(({ id, startsAt, endsAt, duty }) => (
            <rect
              key={id}
              x={x(startsAt)}
              y={top - 6}
              width={x(endsAt) - x(startsAt)}
              height={5}
              fill={colours[duty]}
            >
              <title>{words.window(words.duties[duty])}</title>
            </rect>
          ))}
          <Places plan={plan} count={station.places} />
          {closures.map(({ id, startsAt, endsAt, reason }) => (
            <rect
              key={id}
              x={x(startsAt)}
              y={top}
              width={x(endsAt) - x(startsAt)}
              height={height - top}
              fill="var(--ink-soft)"
              fillOpacity={0.35}
            >
              <title>{words.closed(reason)}</title>
            </rect>
          ))}
          <ShutTimes plan={plan} open={open} />
          <Blocks plan={plan} bookings={bookings} />
          <BlockCursor plan={plan} bookings={bookings} onChoose={onChoose} />
          {x(toldUntil) < width && (
            <rect
              x={x(toldUntil)}
              y={top}
              width={width - x(toldUntil)}
              height={height - top}
              fill="var(--sheet)"
              fillOpacity={0.8}
            >
              <title>{words.notTold}</title>
            </rect>
          )}
          <NowLine plan={plan} from={from} to={to} />
        </svg>
      </div>
      <RulesInWords windows={dutyWindows} closures={closures} />
    </Sheet>
  );
});

/** Of what is known of more days, what these days see. */
function within<Span extends { startsAt: string; endsAt: string }>(
  from: Date,
  to: Date,
  spans: Span[],
): Span[] {
  const [first, last] = [from.toISOString(), to.toISOString()];
  return spans.filter(({ startsAt, endsAt }) => startsAt < last && endsAt > first);
}

const hourMs = 3_600_000;

/** Every second hour of one day. */
function Hours({ plan, from, to }: { plan: StationPlan; from: Date; to: Date }) {
  const times = useTimes();
  const count = Math.ceil((to.getTime() - from.getTime()) / hourMs / 2);
  return Array.from({ length: count }, (_, index) => {
    const hour = new Date(from.getTime() + index * 2 * hourMs);
    return <Mark key={index} plan={plan} at={hour} words={times.time(hour)} />;
  });
}

/** The days, each with how many places nothing touches. */
function Days({
  plan,
  days,
  station,
  toldUntil,
}: {
  plan: StationPlan;
  days: Date[];
  station: DiaryStation;
  toldUntil: string;
}) {
  const times = useTimes();
  const free = useMemo(() => freePlacesOf(days, station), [days, station]);
  const isTold = (index: number) => (days[index + 1]?.getTime() ?? 0) <= Date.parse(toldUntil);
  return free.map((places, index) => {
    const day = days[index] ?? new Date();
    const dayOfMonth = Number(times.isoDay(day).slice(8));
    return (
      <g key={index}>
        <Mark plan={plan} at={day} words={`${times.weekday(day)} ${String(dayOfMonth)}`} />
        <text x={plan.x(day) + 3} y={36} fontSize={12} fill="var(--ink-soft)">
          {isTold(index) ? words.freeShort(places) : '…'}
        </text>
        {isTold(index) && <title>{words.freeOf(places, station.places)}</title>}
      </g>
    );
  });
}

function Mark({ plan: { x, height }, at, words }: { plan: StationPlan; at: Date; words: string }) {
  return (
    <>
      <line x1={x(at)} x2={x(at)} y1={14} y2={height} stroke="var(--line)" strokeWidth={1} />
      <text x={x(at) + 3} y={22} fontSize={13} fill="currentColor">
        {words}
      </text>
    </>
  );
}

/** A line above each place, and its number: where rows are low, that of every fifth. */
function Places({ plan, count }: { plan: StationPlan; count: number }) {
  const numbers = Array.from({ length: count }, (_, index) => index + 1);
  const lines = numbers.map((place) => `M${plan.left} ${plan.y(place)}H${plan.width}`);
  return (
    <>
      <path d={lines.join('')} stroke="var(--line)" strokeWidth={0.5} />
      {numbers
        .filter((place) => plan.rowHeight > 12 || place % 5 === 0)
        .map((place) => (
          <text
            key={place}
            x={plan.left - 6}
            y={plan.y(place) + plan.rowHeight / 2 + 4}
            fontSize={12}
            textAnchor="end"
            fill="var(--ink-soft)"
          >
            {place}
          </text>
        ))}
    </>
  );
}

/** The times at which nobody may come in, between the openings. */
function ShutTimes({ plan, open }: { plan: StationPlan; open: Diary['open'] }) {
  const { x, left, top, width, height } = plan;
  const ends = [left, ...open.flatMap(({ startsAt, endsAt }) => [x(startsAt), x(endsAt)]), width];
  const shut = ends.flatMap((start, index) => {
    const end = ends[index + 1] ?? start;
    return index % 2 === 0 && end > start ? [`M${start} ${top}H${end}V${height}H${start}z`] : [];
  });
  if (shut.length === 0) return null;
  return (
    <path d={shut.join('')} fill="var(--ink-soft)" fillOpacity={0.1}>
      <title>{words.shut}</title>
    </path>
  );
}

function NowLine({ plan: { x, height }, from, to }: { plan: StationPlan; from: Date; to: Date }) {
  const now = new Date();
  if (now < from || now > to) return null;
  return <line x1={x(now)} x2={x(now)} y1={14} y2={height} stroke="var(--late)" strokeWidth={2} />;
}
