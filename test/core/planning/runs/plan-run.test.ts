import { planRun } from '../../../../src/core/planning/runs/plan-run';
import type {
  Alternative,
  Chain,
  Room,
  Run,
  RunPlan,
} from '../../../../src/core/planning/runs/run';
import { at, closure, MINUTE_MS } from '../small-stations';
import {
  aRoom,
  aRun,
  bench,
  BENCH,
  cabinet,
  cellar,
  COOL,
  held,
  option,
  span,
} from './small-rooms';

const HOUR = 60;
const DAY = 24 * HOUR;
const ALL = ['cabinet-1', 'cabinet-2', 'cabinet-3'];

const alternativesOf = (plan: RunPlan): readonly Alternative[] => {
  if (!plan.feasible) throw new Error('no run is possible');
  return plan.alternatives;
};
const first = (room: Room, run: Run): Alternative => {
  const [found] = alternativesOf(planRun(room, run));
  if (!found) throw new Error('there is no alternative');
  return found;
};
/** When the slots start, in minutes. */
const startsOf = ({ warm, bench: mixing, cool }: Chain) =>
  [warm, mixing, cool].map(({ startsAt }) => (startsAt - at(0)) / MINUTE_MS);
const reasonsOf = ({ whyNotSooner }: Alternative) =>
  whyNotSooner.obstacles.map(({ reason }) => reason);

describe('in an empty room', () => {
  test('one step follows the other, and nothing but their lengths keeps it from being sooner', () => {
    const found = first(aRoom(), aRun());

    expect(startsOf(found.chain)).toEqual([0, 150, 210]);
    expect(found.chain.coolEnoughAt).toBe(at(150));
    expect(found.chain.warm).toMatchObject({ stationId: 'cabinet', placeIds: ['cabinet-1'] });
    expect(found.chain.placeMinutes).toBe(120 + 60 + 1440);
    expect(found.whyNotSooner).toMatchObject({
      binds: 'together',
      obstacles: [{ reason: 'durations' }],
    });
  });

  test('a run that is the best at everything is one alternative', () => {
    const alternatives = alternativesOf(planRun(aRoom(), aRun({ preference: 'gentlest' })));

    expect(alternatives).toHaveLength(1);
    expect(alternatives[0]?.preferences).toEqual(['gentlest', 'soonest', 'shortest-hold']);
  });

  test('the soonest, the gentlest and the shortest are told apart, the wished one first', () => {
    // Warm and quick, but the honey has to cool longer; cool and slow; and the quickest in the cabinet.
    const options = [
      option({ minutes: () => 100, coolingMinutes: 60, diastaseLeftPercent: 90 }),
      option({ minutes: () => 300, coolingMinutes: 10, diastaseLeftPercent: 98 }),
      option({ minutes: () => 80, coolingMinutes: 100, diastaseLeftPercent: 80 }),
    ];
    const run = aRun({ preference: 'gentlest', warming: new Map([['cabinet', options]]) });

    const alternatives = alternativesOf(planRun(aRoom(), run));

    expect(alternatives.map((one) => [one.preferences, options.indexOf(one.chain.option)])).toEqual(
      [
        [['gentlest'], 1],
        [['soonest'], 0],
        [['shortest-hold'], 2],
      ],
    );
  });

  test('of two that are potted at the same time the one with less heat is taken', () => {
    const options = [option({ diastaseLeftPercent: 90 }), option({ diastaseLeftPercent: 95 })];

    const found = first(aRoom(), aRun({ warming: new Map([['cabinet', options]]) }));

    expect(found.chain.option.diastaseLeftPercent).toBe(95);
  });
});

describe('people', () => {
  test('the bench slot never spans midnight', () => {
    const run = aRun({ earliestStart: at(DAY - 180), maxStandMinutes: 2 * HOUR });

    const found = first(aRoom(), run);

    expect(startsOf(found.chain)[1]).toBe(DAY);
    expect(reasonsOf(found)).toEqual(['potting-day']);
    expect(found.whyNotSooner.obstacles[0]?.pottedAt).toBe(at(DAY + 30));
  });

  test('a bench slot may end at the very moment of midnight', () => {
    const found = first(aRoom(), aRun({ earliestStart: at(DAY - 210) }));

    expect(found.chain.bench.endsAt).toBe(at(DAY));
  });

  test('nobody comes to load, take out, seed, shelve or clear while the room is closed', () => {
    const openSpans = Array.from({ length: 20 }, (_, day) =>
      span(day * DAY + 600, day * DAY + 840),
    );
    const run = aRun({ maxStandMinutes: 20 * HOUR, earliestStart: at(700) });

    const found = first(aRoom({ openSpans }), run);

    // Loaded at 11:40 and out at 13:40 as the room is open; no hour at the bench is left, nor on the shelf.
    expect(found.chain.bench.startsAt).toBe(at(DAY + 600));
    expect(reasonsOf(found)).toEqual(['opening-hours']);
  });

  test('the bench slot lies within one visit of the member', () => {
    const memberSpans = [span(0, 200), span(205, 100_000)];

    const found = first(aRoom(), aRun({ memberSpans }));

    expect(startsOf(found.chain)[1]).toBe(205);
    expect(reasonsOf(found)).toEqual(['members-hours']);
  });

  test('clearing and taking out may fall on the moment of closing, loading not', () => {
    const exactly = [
      span(0, 120),
      span(150, 212),
      span(210 + DAY - 60, 210 + DAY),
      span(2_000, 9_000),
    ];
    const run = aRun({ memberSpans: exactly });

    expect(startsOf(first(aRoom(), run).chain)).toEqual([0, 150, 210]);
    const shut = aRun({ memberSpans: [span(0, 120), span(150, 210), ...exactly.slice(2)] });
    expect(startsOf(first(aRoom(), shut).chain)).toEqual([2_000, 2_150, 2_210]);
  });

  test('honey that is ready in the evening stands until the morning, but not for longer than it may', () => {
    const memberSpans = [span(0, 120), span(700, 100_000)];

    const patient = first(aRoom(), aRun({ memberSpans, maxStandMinutes: 550 }));
    expect(startsOf(patient.chain)).toEqual([0, 700, 760]);
    const hasty = first(aRoom(), aRun({ memberSpans, maxStandMinutes: 549 }));
    expect(startsOf(hasty.chain)).toEqual([700, 850, 910]);
  });

  test('a run over the night on which the clock goes back keeps its lengths', () => {
    // In Vienna 25 October 2026 has 25 hours: from 24 Oct 22:00 UTC to 25 Oct 23:00 UTC.
    const utc = (text: string) => Date.parse(`2026-10-${text}Z`);
    const day = (from: string, until: string) => ({ startsAt: utc(from), endsAt: utc(until) });
    const openSpans = [
      day('24T07:00', '24T16:00'),
      day('25T08:00', '25T17:00'),
      day('26T08:00', '26T17:00'),
    ];
    const run = aRun({
      earliestStart: utc('24T07:00'),
      latestPotAt: utc('26T23:00'),
      memberSpans: openSpans,
      warming: new Map([['cabinet', [option({ minutes: () => 24 * HOUR, coolingMinutes: HOUR })]]]),
    });
    const days = [
      day('23T22:00', '24T22:00'),
      day('24T22:00', '25T23:00'),
      day('25T23:00', '26T23:00'),
    ];

    const { chain } = first(aRoom({ openSpans, days }), run);

    // Loaded at ten by the summer's clock it comes out at nine by the winter's.
    expect(chain.warm.startsAt).toBe(utc('24T08:00'));
    expect(chain.warm.endsAt).toBe(utc('25T08:00'));
    expect(chain.bench.startsAt).toBe(utc('25T09:00'));
    expect(chain.cool.endsAt).toBe(utc('26T10:00'));
  });
});

describe('stations', () => {
  test('a changeover is waited for', () => {
    const cooled = cabinet({ bookings: [held(-500, 100, ['cabinet-1'], 'cool', COOL)] });

    const found = first(aRoom({ stations: [cooled, bench(), cellar()] }), aRun());

    expect(startsOf(found.chain)).toEqual([130, 280, 340]);
    expect(reasonsOf(found)).toEqual(['changeover', 'other-duty']);
    expect(found.whyNotSooner.obstacles.map((one) => one.pottedAt)).toEqual([at(310), at(210)]);
    expect(found.whyNotSooner.obstacles[0]?.bookings).toEqual(cooled.bookings);
  });

  test('a full cabinet is waited for, and the bookings that fill it are named', () => {
    const full = cabinet({ bookings: [held(-10, 300, ALL, 'warm'), held(400, 500, ALL, 'warm')] });

    const found = first(aRoom({ stations: [full, bench(), cellar()] }), aRun());

    expect(startsOf(found.chain)[0]).toBe(500);
    expect(found.whyNotSooner).toMatchObject({
      binds: 'each',
      obstacles: [{ reason: 'places', slot: 'warm', stationId: 'cabinet', pottedAt: at(210) }],
    });
    expect(found.whyNotSooner.obstacles[0]?.bookings).toEqual(full.bookings.slice(0, 1));
  });

  test.each([
    [
      'temperature',
      { bookings: [held(0, 300, ['cabinet-3'], 'warm', { minC: 50, maxC: 52 })] },
      300,
    ],
    ['closed', { closures: [closure(10, 40)] }, 40],
    ['duty-window', { dutyWindows: [{ duty: 'cool' as const, ...span(0, 250) }] }, 250],
  ])('what keeps a cabinet from warming is named: %s', (reason, rest, start) => {
    const found = first(aRoom({ stations: [cabinet(rest), bench(), cellar()] }), aRun());

    expect(startsOf(found.chain)[0]).toBe(start);
    expect(found.whyNotSooner).toMatchObject({
      binds: 'each',
      obstacles: [{ reason, slot: 'warm' }],
    });
  });

  test('the bench and the cool room are waited for by starting to warm later', () => {
    const busy = bench({ bookings: [held(0, 1_000, ['bench-1'], 'bench', BENCH)] });
    const cellarPlaces = cellar().placeIds;
    const full = cellar({ bookings: [held(0, 1_600, [...cellarPlaces], 'cool', COOL)] });

    const warmOnly = cabinet({ duties: ['warm'] });

    const found = first(aRoom({ stations: [warmOnly, busy, full] }), aRun());

    expect(startsOf(found.chain)).toEqual([1_390, 1_540, 1_600]);
    expect(found.whyNotSooner.obstacles[0]).toMatchObject({ reason: 'places', slot: 'cool' });
  });

  test('two obstacles of which neither binds alone are named together', () => {
    const stations = [
      cabinet({ closures: [closure(0, 400)] }),
      bench({ closures: [closure(150, 550)] }),
      cellar(),
    ];

    const found = first(aRoom({ stations }), aRun());

    expect(startsOf(found.chain)[1]).toBe(550);
    expect(found.whyNotSooner).toMatchObject({
      binds: 'together',
      obstacles: [
        { slot: 'warm', reason: 'closed' },
        { slot: 'bench', reason: 'closed' },
      ],
    });
  });

  test('a cabinet that warms a run may cool its pots once it has changed over', () => {
    const stations = [cabinet({ changeoverMinutes: 100 }), bench()];
    const run = aRun({ maxShelveMinutes: 30 });

    const found = first(aRoom({ stations }), run);

    // Out at 120, and cool at 220: the bench is left at 210, and the pots wait ten minutes.
    expect(startsOf(found.chain)).toEqual([0, 150, 220]);
    expect(found.chain.cool.stationId).toBe('cabinet');
  });
});

describe('other pails', () => {
  const slower = option({ minutes: (others) => 120 + 30 * others });
  const run = (rest: Partial<Run> = {}) =>
    aRun({ warming: new Map([['cabinet', [slower]]]), ...rest });

  test('lengthen the warming by the greatest number of them at any time of it', () => {
    const bookings = [held(-50, 60, ['cabinet-1'], 'warm'), held(60, 400, ['cabinet-2'], 'warm')];
    const room = aRoom({ stations: [cabinet({ bookings }), bench(), cellar()] });

    const found = first(room, run());

    expect(found.chain.otherPails).toBe(1);
    expect(startsOf(found.chain)).toEqual([0, 180, 240]);
    expect(reasonsOf(found)).toEqual(['other-pails']);
  });

  test('that come after it would be clear do not lengthen it', () => {
    const bookings = [held(120, 400, ['cabinet-1', 'cabinet-2'], 'warm')];
    const room = aRoom({ stations: [cabinet({ bookings }), bench(), cellar()] });

    expect(first(room, run()).chain.otherPails).toBe(0);
    expect(first(room, run({ earliestStart: at(1) })).chain.otherPails).toBe(2);
  });
});

describe('honey that cools in its cabinet', () => {
  const inPlace = aRun({ coolsInPlace: { minC: 15, maxC: 25 } });

  test('keeps its places, with the heater off', () => {
    const { chain } = first(aRoom(), inPlace);

    expect(chain.coolDown).toMatchObject({
      startsAt: at(120),
      endsAt: at(150),
      minC: 15,
      maxC: 25,
    });
    expect(chain.coolDown?.placeIds).toEqual(chain.warm.placeIds);
    expect(chain.placeMinutes).toBe(150 + 60 + 1440);
  });

  test('does not do so while others are warmed there', () => {
    const bookings = [held(100, 300, ['cabinet-3'], 'warm')];
    const room = aRoom({ stations: [cabinet({ bookings }), bench(), cellar()] });

    expect(startsOf(first(room, inPlace).chain)[0]).toBe(180);
    expect(startsOf(first(room, aRun()).chain)[0]).toBe(0);
  });
});

describe('a duty window', () => {
  const summer = { duty: 'cool' as const, ...span(0, 5 * DAY) };
  const room = aRoom({ stations: [cabinet({ dutyWindows: [summer] }), bench(), cellar()] });

  test('that keeps a cabinet cool gives way to one for warming, if that is sooner', () => {
    const plan = planRun(room, aRun());

    expect(plan).toMatchObject({
      feasible: true,
      freedByChangeover: {
        stationId: 'cabinet',
        window: { duty: 'warm', startsAt: at(0), endsAt: at(120) },
        instead: [summer],
        chain: { bench: { endsAt: at(210) } },
      },
    });
  });

  test('is no matter when the run would be no sooner', () => {
    const later = aRun({ earliestStart: at(5 * DAY) });

    expect(planRun(room, later)).toMatchObject({ feasible: true, freedByChangeover: null });
  });
});

describe('when no run is possible, the changes that would do are told, with the run of each', () => {
  const impossible = (room: Room, run: Run) => {
    const plan = planRun(room, run);
    if (plan.feasible) throw new Error('a run is possible');
    return plan;
  };

  test('potting as much later as it must be, and starting as much earlier', () => {
    const run = aRun({ earliestStart: at(100), notBefore: at(0), latestPotAt: at(300) });

    const { changes, whyNot } = impossible(aRoom(), run);

    expect(changes).toMatchObject([
      { kind: 'start-earlier', earliestStart: at(90), chain: { bench: { endsAt: at(300) } } },
      { kind: 'pot-later', latestPotAt: at(310) },
    ]);
    expect(whyNot).toMatchObject([{ reason: 'latest-pot-day' }]);
  });

  test('fewer pails, as many as fit', () => {
    const bookings = [held(0, 1_000, ['cabinet-1'], 'warm')];
    const room = aRoom({ stations: [cabinet({ bookings }), bench(), cellar()] });
    const run = aRun({
      pails: 3,
      latestPotAt: at(1_000),
      cool: { ...COOL, crates: 4, minutes: DAY },
    });

    const { changes, whyNot } = impossible(room, run);

    expect(changes).toMatchObject([
      { kind: 'pot-later', latestPotAt: at(1_210) },
      { kind: 'fewer-pails', pails: 2, crates: 3, chain: { bench: { endsAt: at(210) } } },
    ]);
    expect(whyNot).toMatchObject([{ reason: 'places', slot: 'warm', bookings }]);
  });

  test('a temperature that others share: as few degrees more as it takes', () => {
    const hotter = held(0, 100_000, ['cabinet-1'], 'warm', { minC: 46, maxC: 48 });
    const stations = [cabinet({ bookings: [hotter] }), bench(), cellar()];

    const { changes, whyNot } = impossible(aRoom({ stations }), aRun());

    // From 40 to 44 °C two degrees more reach up to the 46 °C of the others.
    expect(changes).toMatchObject([
      { kind: 'wider-temperature', byC: 2, chain: { warm: { minC: 38, maxC: 46 } } },
    ]);
    expect(whyNot).toMatchObject([{ reason: 'temperature', bookings: [hotter] }]);
  });

  test('other hours of the member', () => {
    const { changes, whyNot } = impossible(aRoom(), aRun({ memberSpans: [span(0, 100)] }));

    expect(changes).toMatchObject([{ kind: 'other-hours', chain: { bench: { endsAt: at(210) } } }]);
    expect(whyNot).toMatchObject([{ reason: 'members-hours' }]);
  });

  test('other hours of the room', () => {
    const { changes } = impossible(aRoom({ openSpans: [span(0, 100)] }), aRun());

    expect(changes).toMatchObject([{ kind: 'room-open-longer' }]);
  });

  test('a duty window given up', () => {
    const dutyWindow = { duty: 'cool' as const, ...span(0, 100_000) };
    const stations = [cabinet({ dutyWindows: [dutyWindow] }), bench(), cellar()];

    const { changes } = impossible(aRoom({ stations }), aRun());

    expect(changes).toMatchObject([
      { kind: 'duty-window', stationId: 'cabinet', windows: [dutyWindow] },
    ]);
  });

  test('none, and no reason, when the room has no cabinet at all', () => {
    const stations = [bench(), cellar()];

    expect(impossible(aRoom({ stations }), aRun())).toMatchObject({ changes: [], whyNot: [] });
  });
});

describe('nonsense is refused', () => {
  test.each([
    ['half a pail', { pails: 0.5 }, /^pails must be/],
    [
      'a bench slot without length',
      { bench: { ...BENCH, places: 1, minutes: 0 } },
      /^bench.minutes/,
    ],
    ['a start that is no instant', { earliestStart: NaN }, /^earliestStart must be/],
  ])('a run with %s', (_what, rest, message) => {
    expect(() => planRun(aRoom(), aRun(rest))).toThrow(message);
  });

  test('honey that is warmed for a shorter time beside more pails', () => {
    const odd = option({ minutes: (others) => 120 - others });

    const run = aRun({ warming: new Map([['cabinet', [odd]]]) });

    expect(() => planRun(aRoom(), run)).toThrow(/^minutes\(1\) must be/);
  });
});
