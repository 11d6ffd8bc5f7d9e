import { stations } from './club';
import {
  dayMs,
  daysAfter,
  hoursAfter,
  startOfDay,
  type BookingRecord,
  type ClosureRecord,
  type StationRef,
} from './records';

// The room through the year. The cabinet warms, but for July and August: then it warms for two days and cools for nine, by turns, so
// that honey sets although the cool room gets warm. Times are UTC.

const turnDays = 14;
const turns = 4;
const seedingDay = 3;
const coolingEndsOnDay = 13;

/** When the mixer is free for two hours. */
const benchHours = [6, 8, 11, 13, 15];
const benchMinutes = 120;

export interface Run {
  warmFrom: Date;
  warmUntil: Date;
  benchFrom: Date;
  benchUntil: Date;
  /** Until when the cabinet cools what is seeded on that day; null: it does not. */
  cabinetCoolsUntil: Date | null;
}

/** The bookings and closures so far, and where there is room for more. */
export class RoomDiary {
  readonly closures: ClosureRecord[];
  readonly bookings: BookingRecord[] = [];

  constructor(from: Date, until: Date) {
    this.closures = closuresBetween(from, until);
  }

  /** The first run on that day or later for which cabinet and bench are free. */
  findRun(wanted: Date, pails: number): Run {
    for (let day = startOfDay(wanted); ; day = daysAfter(day, 1)) {
      if (!isLoadingDay(day)) continue;
      const warmFrom = hoursAfter(day, 18);
      const warmUntil = hoursAfter(day, 64);
      if (!this.hasRoom('cabinet', warmFrom, warmUntil, pails)) continue;
      const seeding = daysAfter(day, seedingDay);
      for (const hour of benchHours) {
        const benchFrom = hoursAfter(seeding, hour);
        const benchUntil = hoursAfter(benchFrom, benchMinutes / 60);
        if (!this.hasRoom('bench', benchFrom, benchUntil, 1)) continue;
        const cabinetCoolsUntil = endOfCooling(day);
        return { warmFrom, warmUntil, benchFrom, benchUntil, cabinetCoolsUntil };
      }
    }
  }

  hasRoom(station: StationRef, from: Date, until: Date, places: number): boolean {
    const isOpen = this.closures.every(
      (closure) =>
        closure.station !== station || closure.startsAt >= until || closure.endsAt <= from,
    );
    const others = this.bookings.filter(
      (one) => one.station === station && one.startsAt < until && one.endsAt > from,
    );
    return isOpen && mostPlacesTaken(others, from) + places <= stations[station].places;
  }

  book(booking: Omit<BookingRecord, 'ref'>): BookingRecord {
    const number = String(this.bookings.length + 1).padStart(3, '0');
    const entered = { ...booking, ref: `K${number}` };
    this.bookings.push(entered);
    return entered;
  }
}

/** The most places that these bookings take at one time, from `from` on. */
function mostPlacesTaken(bookings: readonly BookingRecord[], from: Date): number {
  const starts = [from, ...bookings.map(({ startsAt }) => startsAt)];
  const takenAt = (time: Date) =>
    bookings
      .filter(({ startsAt, endsAt }) => startsAt <= time && endsAt > time)
      .reduce((sum, { places }) => sum + places, 0);
  return Math.max(...starts.filter((start) => start >= from).map(takenAt));
}

function firstOfJuly(day: Date): Date {
  return new Date(Date.UTC(day.getUTCFullYear(), 6, 1));
}

/** Days since the first turn of that summer began. */
function summerDay(day: Date): number {
  return (day.getTime() - firstOfJuly(day).getTime()) / dayMs;
}

function isLoadingDay(day: Date): boolean {
  const summer = summerDay(day);
  return summer < 0 || summer >= turns * turnDays || summer % turnDays === 0;
}

/** Until when the cabinet cools after a batch that was loaded on that day, if it cools at all. */
function endOfCooling(loadingDay: Date): Date | null {
  const summer = summerDay(loadingDay);
  return summer >= 0 && summer < turns * turnDays
    ? hoursAfter(daysAfter(loadingDay, coolingEndsOnDay), 12)
    : null;
}

function closuresBetween(from: Date, until: Date): ClosureRecord[] {
  const closures: ClosureRecord[] = [];
  const close = (station: StationRef, startsAt: Date, hours: number, reason: string): void => {
    const endsAt = hoursAfter(startsAt, hours);
    if (startsAt < from || endsAt > until) return;
    closures.push({ ref: `C${closures.length + 1}`, station, startsAt, endsAt, reason });
  };
  for (let year = from.getUTCFullYear(); year <= until.getUTCFullYear(); year++) {
    close('bench', new Date(Date.UTC(year, 1, 10, 5)), 60, 'Mixer in repair');
    for (const month of [0, 2, 4, 8, 10]) {
      close('cabinet', new Date(Date.UTC(year, month, 6, 8)), 4, 'Cleaning');
    }
    for (let turn = 0; turn < turns; turn++) {
      const start = daysAfter(new Date(Date.UTC(year, 6, 1)), turn * turnDays + coolingEndsOnDay);
      close('cabinet', hoursAfter(start, 13), 2, 'Cleaning between cooling and warming');
    }
  }
  return closures;
}
