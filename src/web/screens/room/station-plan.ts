import type { DiaryBooking } from './diary';

/** Where on the drawing of a station its days and places lie, in the drawing's own units: time to the right, a row for each place. */
export interface StationPlan {
  width: number;
  height: number;
  /** Left of it stand the numbers of the places, above it the days. */
  left: number;
  top: number;
  rowHeight: number;
  x: (at: string | Date) => number;
  /** The upper edge of a place's row. */
  y: (place: number) => number;
}

const left = 34;
const top = 46;
const manyPlaces = 12;

/** The plan of a station with so many places, for a span of time, so many units wide: letters are about 12 of them high. */
export function stationPlan(places: number, from: Date, to: Date, width: number): StationPlan {
  const rowHeight = places > manyPlaces ? 12 : 24;
  const [start, end] = [from.getTime(), to.getTime()];
  return {
    width,
    height: top + places * rowHeight,
    left,
    top,
    rowHeight,
    x: (at) => {
      const share = (new Date(at).getTime() - start) / (end - start);
      return left + Math.min(1, Math.max(0, share)) * (width - left);
    },
    y: (place) => top + (place - 1) * rowHeight,
  };
}

/** The booking at a point of the drawing, or the nearest beside it on the same place, no further than `reach`; undefined: nothing stands there. */
export function bookingAt(
  plan: StationPlan,
  bookings: readonly DiaryBooking[],
  point: { x: number; y: number },
  reach: number,
): DiaryBooking | undefined {
  const place = Math.floor((point.y - plan.top) / plan.rowHeight) + 1;
  let nearest: DiaryBooking | undefined;
  let least = reach;
  for (const booking of bookings) {
    if (!booking.places.includes(place)) continue;
    const away = Math.max(plan.x(booking.startsAt) - point.x, point.x - plan.x(booking.endsAt), 0);
    if (away <= least) [nearest, least] = [booking, away];
  }
  return nearest;
}

const alongRow: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowRight: 1,
  Home: -Infinity,
  End: Infinity,
};
const toRow: Readonly<Record<string, number>> = { ArrowUp: -1, ArrowDown: 1 };

/**
 * The booking that an arrow key leads to: left and right along the place, up and down to the next place with a booking, the one that starts
 * nearest in time; Home and End to the first and the last of the place. A booking of more places stands on its first. Undefined: the key
 * leads nowhere.
 */
export function bookingByKey(
  bookings: readonly DiaryBooking[],
  here: DiaryBooking,
  key: string,
): DiaryBooking | undefined {
  const rowOf = ({ places: [first = 0] }: DiaryBooking) => first;
  const inRow = (row: number) => bookings.filter((booking) => rowOf(booking) === row);
  const along = alongRow[key];
  if (along !== undefined) {
    const row = inRow(rowOf(here));
    const at = row.findIndex(({ id }) => id === here.id);
    return row[Math.min(row.length - 1, Math.max(0, at + along))];
  }
  const step = toRow[key];
  if (step === undefined) return undefined;
  const rows = [...new Set(bookings.map(rowOf))].sort((one, other) => one - other);
  const next = inRow(rows[rows.indexOf(rowOf(here)) + step] ?? -1);
  const away = ({ startsAt }: DiaryBooking) =>
    Math.abs(Date.parse(startsAt) - Date.parse(here.startsAt));
  return next.reduce<DiaryBooking | undefined>(
    (nearest, one) => (nearest === undefined || away(one) < away(nearest) ? one : nearest),
    undefined,
  );
}
