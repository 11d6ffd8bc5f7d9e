import type { DiaryStation } from './diary';

/** Of each day (`days` has the start of each, and the end of the last), on how many places nothing stands at any time of it. */
export function freePlacesOf(days: readonly Date[], station: DiaryStation): number[] {
  const starts = days.map((day) => day.getTime());
  const taken = starts.slice(1).map(() => new Set<number>());
  const closed = starts.slice(1).map(() => false);
  const touched = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }) => {
    const [start, end] = [Date.parse(startsAt), Date.parse(endsAt)];
    return taken
      .map((_, day) => day)
      .filter((day) => start < (starts[day + 1] ?? 0) && end > (starts[day] ?? 0));
  };
  for (const booking of station.bookings) {
    for (const day of touched(booking)) booking.places.forEach((place) => taken[day]?.add(place));
  }
  for (const closure of station.closures) {
    for (const day of touched(closure)) closed[day] = true;
  }
  return taken.map((places, day) => (closed[day] === true ? 0 : station.places - places.size));
}
