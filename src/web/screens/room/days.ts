import { instantOf, localOf } from '../../ui/times';

/** How many days the room shows when somebody comes to it. */
export const daysAtFirst = 14;

/** The instants at which the local days begin, `count` + 1 of them, from the day of `at` on. Days are 23 to 25 hours long. */
export function dayStarts(at: Date, count: number, timeZone: string): Date[] {
  const [year = 0, month = 1, day = 1] = localOf(at, timeZone).slice(0, 10).split('-').map(Number);
  return Array.from({ length: count + 1 }, (_, index) => {
    const local = new Date(Date.UTC(year, month - 1, day + index)).toISOString().slice(0, 10);
    return new Date(instantOf(`${local}T00:00`, timeZone));
  });
}
