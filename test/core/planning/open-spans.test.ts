import { Temporal } from '@js-temporal/polyfill';
import fc from 'fast-check';
import {
  openSpans,
  type OpeningHours,
  type RoomHours,
} from '../../../src/core/planning/open-spans';
import type { Span } from '../../../src/core/planning/station-times';
import { MINUTE_MS } from './small-stations';

const DAY_MS = 1440 * MINUTE_MS;

/** Open from hour to hour, every day unless told otherwise. */
function every(opens: number, closes: number, weekdays = [1, 2, 3, 4, 5, 6, 7]): OpeningHours[] {
  return weekdays.map((weekday) => ({
    weekday,
    opensMinute: opens * 60,
    closesMinute: closes * 60,
  }));
}

/** The open spans between two times, written as instants of UTC. */
function openBetween(from: string, until: string, room: Partial<RoomHours>): string[] {
  const whole = { timeZone: 'Europe/Vienna', hours: [], closedDays: [], ...room };
  return openSpans(whole, Date.parse(from), Date.parse(until)).map(
    ({ startsAt, endsAt }) => `${short(startsAt)} – ${short(endsAt)}`,
  );
}

function short(instant: number): string {
  return new Date(instant).toISOString().slice(0, 16).replace('T', ' ');
}

describe('an ordinary week', () => {
  test('has its hours on its days, by the clock of the club, several a day if need be', () => {
    const hours = [...every(8, 12, [1]), ...every(14, 18, [1]), ...every(18, 22, [3])];
    // 4 May 2026 is a Monday; in summer Vienna is two hours ahead of UTC.
    expect(openBetween('2026-05-04T00:00Z', '2026-05-11T00:00Z', { hours })).toEqual([
      '2026-05-04 06:00 – 2026-05-04 10:00',
      '2026-05-04 12:00 – 2026-05-04 16:00',
      '2026-05-06 16:00 – 2026-05-06 20:00',
    ]);
  });

  test('is cut off where the question begins and ends, even in the middle of an opening', () => {
    const hours = every(8, 12);
    expect(openBetween('2026-05-04T07:00Z', '2026-05-05T06:30Z', { hours })).toEqual([
      '2026-05-04 07:00 – 2026-05-04 10:00',
      '2026-05-05 06:00 – 2026-05-05 06:30',
    ]);
    expect(openBetween('2026-05-04T10:00Z', '2026-05-05T06:00Z', { hours })).toEqual([]);
    expect(openBetween('2026-05-04T07:00Z', '2026-05-04T07:00Z', { hours })).toEqual([]);
  });

  test('that is open until midnight and from midnight on is open in one piece', () => {
    const hours = [...every(20, 24, [1]), ...every(0, 3, [2])];
    expect(openBetween('2026-05-04T00:00Z', '2026-05-11T00:00Z', { hours })).toEqual([
      '2026-05-04 18:00 – 2026-05-05 01:00',
    ]);
  });

  test('without hours is open day and night, but for the days when nobody comes in', () => {
    expect(openBetween('2026-05-04T00:00Z', '2026-05-11T00:00Z', {})).toEqual([
      '2026-05-04 00:00 – 2026-05-11 00:00',
    ]);
    expect(
      openBetween('2026-05-04T00:00Z', '2026-05-11T00:00Z', { closedDays: ['2026-05-06'] }),
    ).toEqual(['2026-05-04 00:00 – 2026-05-05 22:00', '2026-05-06 22:00 – 2026-05-11 00:00']);
  });

  test('has no hours on a closed day', () => {
    const room = { hours: every(8, 10), closedDays: ['2026-12-25', '2026-12-26'] };
    expect(openBetween('2026-12-24T00:00Z', '2026-12-28T00:00Z', room)).toEqual([
      '2026-12-24 07:00 – 2026-12-24 09:00',
      '2026-12-27 07:00 – 2026-12-27 09:00',
    ]);
  });
});

describe('when the clock of Vienna jumps from 2 to 3 on 29 March 2026 (1:00 UTC)', () => {
  const between = (hours: OpeningHours[]) =>
    openBetween('2026-03-28T23:00Z', '2026-03-29T22:00Z', { hours });

  test('the room is open an hour less', () => {
    expect(between(every(1, 5))).toEqual(['2026-03-29 00:00 – 2026-03-29 03:00']);
  });

  test('an opening or a closing that the clock leaves out falls on the jump', () => {
    const half = (opensMinute: number, closesMinute: number) =>
      every(0, 1, [7]).map((day) => ({ ...day, opensMinute, closesMinute }));
    expect(between(half(150, 300))).toEqual(['2026-03-29 01:00 – 2026-03-29 03:00']);
    expect(between(half(60, 150))).toEqual(['2026-03-29 00:00 – 2026-03-29 01:00']);
    expect(between(half(125, 170))).toEqual([]);
  });
});

describe('when the clock of Vienna goes back from 3 to 2 on 25 October 2026 (1:00 UTC)', () => {
  const between = (opensMinute: number, closesMinute: number) =>
    openBetween('2026-10-24T22:00Z', '2026-10-25T23:00Z', {
      hours: [{ weekday: 7, opensMinute, closesMinute }],
    });

  test('the room is open an hour more', () => {
    expect(between(60, 300)).toEqual(['2026-10-24 23:00 – 2026-10-25 04:00']);
  });

  test('an opening that comes twice is the first, a closing that comes twice the last', () => {
    expect(between(150, 300)).toEqual(['2026-10-25 00:30 – 2026-10-25 04:00']);
    expect(between(60, 150)).toEqual(['2026-10-24 23:00 – 2026-10-25 01:30']);
    expect(between(140, 150)).toEqual(['2026-10-25 00:20 – 2026-10-25 01:30']);
  });

  test('closing as the doubled hour begins, or opening as it ends, is no longer than on other days', () => {
    expect(between(60, 120)).toEqual(['2026-10-24 23:00 – 2026-10-25 00:00']);
    expect(between(180, 240)).toEqual(['2026-10-25 02:00 – 2026-10-25 03:00']);
  });
});

describe('elsewhere and at the edges of the calendar', () => {
  test('summer time of the south: Auckland goes back on 5 April 2026 and ahead on 27 September', () => {
    const room = { timeZone: 'Pacific/Auckland', hours: every(1, 4) };
    expect(openBetween('2026-04-04T11:00Z', '2026-04-05T12:00Z', room)).toEqual([
      '2026-04-04 12:00 – 2026-04-04 16:00',
    ]);
    expect(openBetween('2026-09-26T12:00Z', '2026-09-27T11:00Z', room)).toEqual([
      '2026-09-26 13:00 – 2026-09-26 15:00',
    ]);
  });

  test('half an hour of summer time: Lord Howe goes back on 5 April 2026 and ahead on 4 October', () => {
    const room = { timeZone: 'Australia/Lord_Howe', hours: every(1, 4) };
    expect(openBetween('2026-04-04T13:00Z', '2026-04-05T13:30Z', room)).toEqual([
      '2026-04-04 14:00 – 2026-04-04 17:30',
    ]);
    expect(openBetween('2026-10-03T13:30Z', '2026-10-04T13:00Z', room)).toEqual([
      '2026-10-03 14:30 – 2026-10-03 17:00',
    ]);
  });

  test('an offset of five hours and three quarters: Kathmandu', () => {
    const room = { timeZone: 'Asia/Kathmandu', hours: every(9, 17, [1]) };
    expect(openBetween('2026-05-03T00:00Z', '2026-05-06T00:00Z', room)).toEqual([
      '2026-05-04 03:15 – 2026-05-04 11:15',
    ]);
  });

  test('a leap day and a turn of the year', () => {
    expect(
      openBetween('2028-02-28T12:00Z', '2028-03-01T12:00Z', { hours: every(8, 9, [2]) }),
    ).toEqual(['2028-02-29 07:00 – 2028-02-29 08:00']);
    expect(
      openBetween('2026-12-31T12:00Z', '2027-01-01T12:00Z', {
        hours: [...every(22, 24, [4]), ...every(0, 2, [5])],
      }),
    ).toEqual(['2026-12-31 21:00 – 2027-01-01 01:00']);
  });

  test('a day that a time zone left out: in Apia 30 December 2011, a Friday, never came', () => {
    const room = { timeZone: 'Pacific/Apia', hours: every(8, 10) };
    expect(openBetween('2011-12-29T10:00Z', '2011-12-31T10:00Z', room)).toEqual([
      '2011-12-29 18:00 – 2011-12-29 20:00',
      '2011-12-30 18:00 – 2011-12-30 20:00',
    ]);
    expect(
      openBetween('2011-12-29T10:00Z', '2011-12-31T10:00Z', {
        ...room,
        hours: every(0, 24, [5]),
      }),
    ).toEqual([]);
  });

  test('a day that begins at 1, where the clock jumps at midnight: Beirut, 29 March 2026', () => {
    const room = { timeZone: 'Asia/Beirut', hours: every(0, 6, [7]) };
    expect(openBetween('2026-03-28T12:00Z', '2026-03-29T12:00Z', room)).toEqual([
      '2026-03-28 22:00 – 2026-03-29 03:00',
    ]);
  });
});

const zones = [
  'Europe/Vienna',
  'Pacific/Auckland',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'Asia/Beirut',
  'America/Havana',
  'America/St_Johns',
  'Africa/Casablanca',
  'UTC',
];

const someHours = fc
  .tuple(fc.integer({ min: 1, max: 7 }), fc.nat(95), fc.integer({ min: 1, max: 40 }))
  .map(([weekday, opens, length]) => ({
    weekday,
    opensMinute: opens * 15,
    closesMinute: Math.min((opens + length) * 15, 1440),
  }));

const someRoom: fc.Arbitrary<RoomHours> = fc.record({
  timeZone: fc.constantFrom(...zones),
  hours: fc.array(someHours, { maxLength: 12 }),
  closedDays: fc.constant([]),
});

/** A change of the clock in that zone, or just some time where there is none. */
function aChange(timeZone: string, year: number, which: 0 | 1): number {
  let at = Temporal.ZonedDateTime.from({ timeZone, year, month: 1, day: 1 });
  for (let count = 0; count <= which; count++) at = at.getTimeZoneTransition('next') ?? at;
  return Math.floor(at.epochMilliseconds / MINUTE_MS) * MINUTE_MS;
}

/** Each quarter of an hour: its local day and minute of the day, as Intl, not the code under test, reads the clock. */
function quartersOf(timeZone: string, from: number, until: number) {
  const clock = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  return Array.from({ length: (until - from) / (15 * MINUTE_MS) }, (_, index) => {
    const at = from + index * 15 * MINUTE_MS;
    const parts = Object.fromEntries(
      clock.formatToParts(at).map(({ type, value }) => [type, value]),
    );
    const day = `${parts['year']}-${parts['month']}-${parts['day']}`;
    return { at, day, minute: Number(parts['hour']) * 60 + Number(parts['minute']) };
  });
}

/** From the first to the last quarter of an hour of a local day in which the clock shows the hours, for each day and opening. */
function openQuarters(room: RoomHours, from: number, until: number): Set<number> {
  const byDay = new Map<string, { at: number; minute: number }[]>();
  for (const quarter of quartersOf(room.timeZone, from - 3 * DAY_MS, until + 3 * DAY_MS)) {
    byDay.set(quarter.day, [...(byDay.get(quarter.day) ?? []), quarter]);
  }
  const open = new Set<number>();
  for (const [day, quarters] of byDay) {
    if (room.closedDays.includes(day)) continue;
    const weekday = new Date(`${day}T12:00Z`).getUTCDay() || 7;
    const hours =
      room.hours.length === 0
        ? [{ opensMinute: 0, closesMinute: 1440 }]
        : room.hours.filter((one) => one.weekday === weekday);
    for (const { opensMinute, closesMinute } of hours) {
      const shown = quarters.filter(({ minute }) => minute >= opensMinute && minute < closesMinute);
      const first = shown[0]?.at ?? 0;
      const last = shown.at(-1)?.at ?? -1;
      for (let at = first; at <= last; at += 15 * MINUTE_MS) {
        if (at >= from && at < until) open.add(at);
      }
    }
  }
  return open;
}

test('around changes of the clock it is open exactly when the clock on the wall says so, quarter by quarter of an hour', () => {
  let changed = 0;
  fc.assert(
    fc.property(
      someRoom,
      fc.integer({ min: 2012, max: 2035 }),
      fc.constantFrom<0 | 1>(0, 1),
      fc.nat(200),
      (room, year, which, closedFrom) => {
        const around = aChange(room.timeZone, year, which);
        const from = Math.floor(around / DAY_MS) * DAY_MS - DAY_MS;
        const until = from + 3 * DAY_MS;
        const closedDay = new Date(from + closedFrom * 3_600_000).toISOString().slice(0, 10);
        const whole = { ...room, closedDays: closedFrom < 100 ? [closedDay] : [] };

        const spans = openSpans(whole, from, until);

        expectApart(spans, from, until);
        const found = new Set(spans.flatMap(quartersWithin));
        expect(found).toEqual(openQuarters(whole, from, until));
        const minutes = spans.reduce((sum, span) => sum + span.endsAt - span.startsAt, 0);
        if (minutes % DAY_MS !== 0) changed += 1;
      },
    ),
    { numRuns: 150 },
  );
  expect(changed).toBeGreaterThan(75);
});

function quartersWithin({ startsAt, endsAt }: Span): number[] {
  return Array.from(
    { length: (endsAt - startsAt) / (15 * MINUTE_MS) },
    (_, index) => startsAt + index * 15 * MINUTE_MS,
  );
}

function expectApart(spans: Span[], from: number, until: number): void {
  let last = -Infinity;
  for (const { startsAt, endsAt } of spans) {
    expect(startsAt).toBeGreaterThan(last);
    expect(endsAt).toBeGreaterThan(startsAt);
    last = endsAt;
  }
  if (spans.length > 0) {
    expect(spans[0]!.startsAt).toBeGreaterThanOrEqual(from);
    expect(last).toBeLessThanOrEqual(until);
  }
}

describe('nonsense is refused', () => {
  const room = { timeZone: 'UTC', hours: every(8, 10), closedDays: [] };
  test.each([
    ['a time zone that is none', { timeZone: 'Mars/Olympus' }],
    ['a day that is none', { closedDays: ['2026-02-30'] }],
    ['an eighth day of the week', { hours: every(8, 10, [8]) }],
    ['hours that close before they open', { hours: every(10, 8) }],
    ['hours beyond midnight', { hours: every(20, 25) }],
  ])('%s', (_what, wrong) => {
    expect(() => openSpans({ ...room, ...wrong }, 0, DAY_MS)).toThrow(RangeError);
  });

  test.each([
    [NaN, 1],
    [0, Infinity],
    [1, 0],
  ])('from %s until %s', (from, until) => {
    expect(() => openSpans(room, from, until)).toThrow(RangeError);
  });
});
