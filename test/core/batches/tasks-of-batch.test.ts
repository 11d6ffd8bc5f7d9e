import fc from 'fast-check';
import { nextSteps, stepOrder, type DoneStep } from '../../../src/core/batches/next-steps';
import {
  tasksOfBatch,
  type BatchBooking,
  type BatchNow,
} from '../../../src/core/batches/tasks-of-batch';

const hour = 3_600_000;
const day = 24 * hour;
/** Any moment will do. */
const start = Date.UTC(2026, 10, 2, 8);

function aBooking(
  duty: BatchBooking['duty'],
  startsAt: number,
  hours: number,
  different: Partial<BatchBooking> = {},
): BatchBooking {
  const endsAt = startsAt + hours * hour;
  return {
    id: `${duty} ${startsAt}`,
    duty,
    startsAt,
    endsAt,
    arrivedAt: null,
    clearedAt: null,
    ...different,
  };
}

const warm = aBooking('warm', start, 48);
const bench = aBooking('bench', start + 3 * day, 4);
const cool = aBooking('cool', start + 3 * day + 4 * hour, 14 * 24);
const booked = [cool, warm, bench];

function tasks(steps: [DoneStep['kind'], number][], now: number, more: Partial<BatchNow> = {}) {
  const known = { bookings: booked, lastLookAt: null, expectedAt: null, ...more };
  return tasksOfBatch(
    { ...known, steps: steps.map(([kind, at]) => ({ kind, at: start + at })) },
    start + now,
  );
}

const kinds = (...given: Parameters<typeof tasks>) => tasks(...given).map(({ kind }) => kind);

test('a batch is led from its first booking to its last look', () => {
  expect(kinds([], -day)).toEqual(['load']);
  expect(kinds([['loaded', hour]], 2 * hour)).toEqual(['take-out']);
  expect(
    kinds(
      [
        ['loaded', 0],
        ['cleared', 2 * day],
      ],
      2 * day,
    ),
  ).toEqual(['seed']);
  const seeded: [DoneStep['kind'], number][] = [
    ['loaded', 0],
    ['cleared', 2 * day],
    ['seeded', 3 * day],
  ];
  expect(kinds(seeded, 3 * day)).toEqual(['pot', 'check']);
  expect(kinds([...seeded, ['potted', 3 * day + hour]], 3 * day + hour)).toEqual([
    'clear',
    'shelve',
    'check',
  ]);
  expect(
    kinds([...seeded, ['potted', 3 * day + hour], ['shelved', 3 * day + 4 * hour]], 4 * day),
  ).toEqual(['check']);
  expect(kinds([...seeded, ['potted', 3 * day + hour], ['set', 12 * day]], 12 * day)).toEqual([
    'clear',
  ]);
  expect(kinds([...seeded, ['potted', 3 * day + hour], ['set', 12 * day]], 30 * day)).toEqual([]);
});

test('loading is late an hour after the warming begins, taking out when it ends', () => {
  expect(tasks([], 0)[0]).toEqual({
    kind: 'load',
    bookingId: warm.id,
    notBefore: start,
    dueAt: start + hour,
  });
  expect(tasks([['loaded', 0]], day)[0]).toEqual({
    kind: 'take-out',
    bookingId: warm.id,
    notBefore: start,
    dueAt: warm.endsAt,
  });
});

test('what was cleared early gives its places back early', () => {
  const clear = tasks(
    [
      ['loaded', 0],
      ['cleared', day],
    ],
    day,
  ).find(({ kind }) => kind === 'clear');
  expect(clear).toEqual({
    kind: 'clear',
    bookingId: warm.id,
    notBefore: start + day,
    dueAt: warm.endsAt,
  });
});

test('a booking that is over asks to be cleared only where the honey is known to have come', () => {
  const none: [DoneStep['kind'], number][] = [];
  const come = { ...warm, arrivedAt: start };
  const over = 5 * day;
  expect(kinds(none, over, { bookings: [warm] })).toEqual(['load']);
  expect(kinds(none, over, { bookings: [come] })).toContain('clear');
  expect(kinds(none, over, { bookings: [{ ...come, clearedAt: start + day }] })).not.toContain(
    'clear',
  );
});

test('who wrote down the pots late is asked for them even after the batch has set', () => {
  expect(
    kinds(
      [
        ['seeded', 0],
        ['set', 9 * day],
      ],
      10 * day,
      { bookings: [] },
    ),
  ).toEqual(['pot']);
});

test('a batch that was given up asks for nothing but its places', () => {
  expect(
    kinds(
      [
        ['loaded', 0],
        ['abandoned', day],
      ],
      day,
    ),
  ).toEqual(['clear']);
  expect(
    kinds(
      [
        ['loaded', 0],
        ['abandoned', day],
      ],
      day,
      { bookings: [] },
    ),
  ).toEqual([]);
});

test('a batch of which nothing is booked and nothing done asks for nothing', () => {
  expect(kinds([], 0, { bookings: [] })).toEqual([]);
});

const times = fc.integer({ min: 0, max: 60 * day }).map((offset) => start + offset);

/** Steps in an order in which they can have been filed. */
const someSteps = fc.array(fc.nat(), { maxLength: 8 }).chain((choices) =>
  fc.array(fc.integer({ min: 0, max: 3 * day }), { minLength: 8, maxLength: 8 }).map((pauses) => {
    const done: DoneStep[] = [];
    let at = start;
    choices.forEach((choice, index) => {
      const open = nextSteps(done.map(({ kind }) => kind));
      const kind = open[choice % Math.max(1, open.length)];
      if (kind === undefined) return;
      at += pauses[index] ?? 0;
      done.push({ kind, at });
    });
    return done;
  }),
);

const someBookings = fc.array(
  fc
    .record({
      duty: fc.constantFrom('warm' as const, 'cool' as const, 'bench' as const),
      from: times,
      hours: fc.integer({ min: 1, max: 400 }),
      arrived: fc.boolean(),
      cleared: fc.boolean(),
    })
    .map(({ duty, from, hours, arrived, cleared }) =>
      aBooking(duty, from, hours, {
        arrivedAt: arrived ? from : null,
        clearedAt: arrived && cleared ? from + hour : null,
      }),
    ),
  { maxLength: 5 },
);

const stepOf = {
  load: 'loaded',
  'take-out': 'cleared',
  seed: 'seeded',
  pot: 'potted',
  shelve: 'shelved',
} as const;

test('each task can be done: its step may come next, its booking is the batch’s, and it is not due before it may be done', () => {
  fc.assert(
    fc.property(
      someSteps,
      someBookings,
      fc.option(times),
      times,
      (steps, bookings, expectedAt, now) => {
        const batch = { steps, bookings, lastLookAt: null, expectedAt };
        const found = tasksOfBatch(batch, now);
        const open = nextSteps(steps.map(({ kind }) => kind));
        const done = steps.map(({ kind }) => kind);
        expect(found.filter(({ kind }) => kind in stepOf).length).toBeLessThanOrEqual(1);
        for (const { kind, bookingId, notBefore, dueAt } of found) {
          if (kind in stepOf) expect(open).toContain(stepOf[kind as keyof typeof stepOf]);
          if (kind === 'check') {
            expect(done).toContain('seeded');
            expect(done.some((one) => one === 'set' || one === 'abandoned')).toBe(false);
          }
          if (bookingId !== null) expect(bookings.map(({ id }) => id)).toContain(bookingId);
          if (kind === 'clear')
            expect(bookings.find(({ id }) => id === bookingId)!.clearedAt).toBeNull();
          if (notBefore !== null && dueAt !== null) expect(dueAt).toBeGreaterThanOrEqual(notBefore);
        }
        const due = found.map(({ dueAt }) => dueAt ?? Infinity);
        expect(due).toEqual([...due].sort((a, b) => a - b));
      },
    ),
  );
});

test('doing what is asked leads every batch with honey in it to its end', () => {
  fc.assert(
    fc.property(someBookings, (bookings) => {
      const steps: DoneStep[] = [{ kind: 'loaded', at: start }];
      for (let round = 0; round < 10; round++) {
        const [task] = tasksOfBatch(
          { steps, bookings, lastLookAt: null, expectedAt: null },
          start,
        ).filter(({ kind }) => kind !== 'clear');
        if (task === undefined) break;
        const kind = task.kind === 'check' ? 'set' : stepOf[task.kind as keyof typeof stepOf];
        steps.push({ kind, at: start + round * hour });
        steps.sort((a, b) => stepOrder.indexOf(a.kind) - stepOrder.indexOf(b.kind));
      }
      expect(steps.map(({ kind }) => kind)).toEqual(
        expect.arrayContaining(['cleared', 'seeded', 'potted', 'set']),
      );
    }),
  );
});

test('nobody is told to look for longer than a month at what has left the room', () => {
  const shelved: [DoneStep['kind'], number][] = [
    ['seeded', 3 * day],
    ['potted', 3 * day],
    ['shelved', 4 * day],
  ];
  const fetched = { ...cool, arrivedAt: start + 4 * day, clearedAt: start + 20 * day };
  const looksAt = (now: number, bookings: BatchBooking[]) =>
    kinds(shelved, now, { bookings }).includes('check');

  expect(looksAt(50 * day, [fetched])).toBe(true);
  expect(looksAt(50 * day + hour, [fetched])).toBe(false);
  expect(looksAt(500 * day, [])).toBe(true);
  const extended = aBooking('cool', start + 20 * day, 24);
  expect(looksAt(51 * day, [fetched, extended])).toBe(true);
  expect(looksAt(51 * day, [fetched, { ...extended, clearedAt: start + 21 * day }])).toBe(true);
});
