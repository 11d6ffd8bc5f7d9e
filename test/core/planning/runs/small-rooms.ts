import type {
  Room,
  RoomBooking,
  RoomStation,
  Run,
  WarmingOption,
} from '../../../../src/core/planning/runs/run';
import type { Duty, Span } from '../../../../src/core/planning/station-times';
import { at } from '../small-stations';

export const span = (startMinute: number, endMinute: number): Span => ({
  startsAt: at(startMinute),
  endsAt: at(endMinute),
});

let bookings = 0;

export const held = (
  startMinute: number,
  endMinute: number,
  placeIds: string[],
  duty: Duty,
  band = { minC: 40, maxC: 44 },
): RoomBooking => ({
  id: `booking-${++bookings}`,
  placeIds,
  duty,
  ...band,
  ...span(startMinute, endMinute),
});

export const COOL = { minC: 12, maxC: 15 };
export const BENCH = { minC: 15, maxC: 30 };

const station = (stationId: string, duties: Duty[], places: number): RoomStation => ({
  stationId,
  duties,
  placeIds: Array.from({ length: places }, (_, index) => `${stationId}-${index + 1}`),
  changeoverMinutes: 30,
  bookings: [],
  closures: [],
  open: null,
  dutyWindows: [],
});

export const cabinet = (rest: Partial<RoomStation> = {}): RoomStation => ({
  ...station('cabinet', ['warm', 'cool'], 3),
  ...rest,
});

export const bench = (rest: Partial<RoomStation> = {}): RoomStation => ({
  ...station('bench', ['bench'], 1),
  ...rest,
});

export const cellar = (rest: Partial<RoomStation> = {}): RoomStation => ({
  ...station('cellar', ['cool'], 4),
  ...rest,
});

export const aRoom = (rest: Partial<Room> = {}): Room => ({
  stations: [cabinet(), bench(), cellar()],
  openSpans: [span(0, 100_000)],
  days: Array.from({ length: 70 }, (_, day) => span(day * 1440, (day + 1) * 1440)),
  ...rest,
});

export const option = (rest: Partial<WarmingOption> = {}): WarmingOption => ({
  setpointC: 42,
  minC: 40,
  maxC: 44,
  minutes: () => 120,
  coolingMinutes: 30,
  energyKWh: 2,
  diastaseLeftPercent: 90,
  hmfGainedMgPerKg: 1,
  ...rest,
});

/** A pail: two hours of warming, half an hour of cooling, an hour at the bench, a day in the cool room. */
export const aRun = (rest: Partial<Run> = {}): Run => ({
  preference: 'soonest',
  earliestStart: at(0),
  latestPotAt: at(20_000),
  memberSpans: [span(0, 100_000)],
  pails: 1,
  warming: new Map([['cabinet', [option()]]]),
  coolsInPlace: null,
  maxStandMinutes: 60,
  bench: { ...BENCH, places: 1, minutes: 60 },
  maxShelveMinutes: 0,
  cool: { ...COOL, crates: 1, minutes: 1440 },
  ...rest,
});
