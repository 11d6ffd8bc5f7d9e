import fc from 'fast-check';
import { planRun } from '../../../../src/core/planning/runs/plan-run';
import type {
  Room,
  RoomBooking,
  RoomStation,
  Run,
  WhyNotSooner,
} from '../../../../src/core/planning/runs/run';
import type { Duty } from '../../../../src/core/planning/station-times';
import { MINUTE_MS } from '../small-stations';
import { everyRun } from './chain-oracle';
import { smallClub } from './random-rooms';

const ALWAYS = [{ startsAt: -8e15, endsAt: 8e15 }];

type Club = {
  readonly room: Room;
  readonly run: Run;
  readonly asked?: (duty: Duty, station: RoomStation) => RoomStation;
};

/** The club without one constraint, made by hand: the stations are asked for one slot as if it were not there. */
function relaxed(room: Room, run: Run): Map<string, Club> {
  const clubs = new Map<string, Club>([
    ['opening-hours', { room: { ...room, openSpans: ALWAYS }, run }],
    ['members-hours', { room, run: { ...run, memberSpans: ALWAYS } }],
    ['potting-day', { room: { ...room, days: ALWAYS }, run }],
  ]);
  for (const slot of ['warm', 'bench', 'cool'] as const) {
    const askedAs = (change: (station: RoomStation) => Partial<RoomStation>): Club => ({
      room,
      run,
      asked: (duty, station) => (duty === slot ? { ...station, ...change(station) } : station),
    });
    const keeping = (keep: (booking: RoomBooking) => boolean) =>
      askedAs(({ bookings }) => ({ bookings: bookings.filter(keep) }));
    clubs.set(
      `${slot} closed`,
      askedAs(() => ({ closures: [] })),
    );
    clubs.set(
      `${slot} duty-window`,
      askedAs(() => ({ dutyWindows: [] })),
    );
    clubs.set(
      `${slot} changeover`,
      askedAs(() => ({ changeoverMinutes: 0 })),
    );
    clubs.set(
      `${slot} other-duty`,
      keeping(({ duty }) => duty === slot),
    );
    // Which bookings share a temperature with the warming depends on how it is warmed.
    if (slot === 'warm') continue;
    const shares = ({ minC, maxC }: RoomBooking) =>
      minC <= run[slot].maxC && run[slot].minC <= maxC;
    clubs.set(
      `${slot} places`,
      keeping((one) => one.duty !== slot || !shares(one)),
    );
    clubs.set(
      `${slot} temperature`,
      keeping((one) => one.duty !== slot || shares(one)),
    );
  }
  return clubs;
}

function soonest({ room, run, asked }: Club): number {
  let pottedAt = Infinity;
  everyRun(
    room,
    run,
    MINUTE_MS,
    (found) => {
      pottedAt = Math.min(pottedAt, found.pottedAt);
    },
    asked,
  );
  return pottedAt;
}

const named = ({ obstacles }: WhyNotSooner, key: string) =>
  obstacles.find(({ slot, reason }) => (slot ? `${slot} ${reason}` : reason) === key);

test('a constraint binds exactly when exhaustive search is sooner without it, and as soon as is told', () => {
  const seen = new Map<string, number>();
  fc.assert(
    fc.property(smallClub(1), ({ room, run }) => {
      const plan = planRun(room, run);
      if (!plan.feasible) return;
      const [alternative] = plan.alternatives;
      const why = alternative!.whyNotSooner;
      const potted = alternative!.chain.bench.endsAt;

      for (const [key, club] of relaxed(room, run)) {
        const without = soonest(club);
        const binding = why.binds === 'each' ? named(why, key) : undefined;
        if (without < potted) {
          expect(binding?.pottedAt).toBe(without);
          seen.set(key, (seen.get(key) ?? 0) + 1);
        } else {
          expect(binding).toBeUndefined();
        }
      }
      if (why.binds === 'together' && why.obstacles.length > 1) {
        seen.set('together', (seen.get('together') ?? 0) + 1);
      }
    }),
    { numRuns: 250 },
  );
  expect(seen.size).toBeGreaterThan(8);
  for (const key of ['opening-hours', 'members-hours']) expect(seen.get(key)).toBeGreaterThan(0);
});

test('a run that is not possible is possible after each change that is told, and would be as it is told', () => {
  const kinds = new Map<string, number>();
  fc.assert(
    fc.property(smallClub(1), ({ room, run: wish }) => {
      const run = { ...wish, notBefore: wish.earliestStart - 20 * MINUTE_MS };
      const plan = planRun(room, run);
      if (plan.feasible) return;

      for (const change of plan.changes) {
        kinds.set(change.kind, (kinds.get(change.kind) ?? 0) + 1);
        const potted = change.chain.bench.endsAt;
        switch (change.kind) {
          case 'pot-later':
            expect(soonest({ room, run: { ...run, latestPotAt: change.latestPotAt } })).toBe(
              potted,
            );
            expect(soonest({ room, run: { ...run, latestPotAt: potted - MINUTE_MS } })).toBe(
              Infinity,
            );
            break;
          case 'start-earlier': {
            const { earliestStart } = change;
            expect(soonest({ room, run: { ...run, earliestStart } })).toBe(potted);
            const later = { ...run, earliestStart: earliestStart + MINUTE_MS };
            expect(soonest({ room, run: later })).toBe(Infinity);
            break;
          }
          case 'fewer-pails': {
            const { pails, crates } = change;
            const cool = { ...run.cool, crates };
            expect(soonest({ room, run: { ...run, pails, cool } })).toBe(potted);
            break;
          }
          case 'other-hours':
            expect(soonest({ room, run: { ...run, memberSpans: ALWAYS } })).toBe(potted);
            break;
          case 'room-open-longer':
            expect(soonest({ room: { ...room, openSpans: ALWAYS }, run })).toBe(potted);
            break;
          case 'duty-window': {
            const stations = room.stations.map((one) =>
              one.stationId === change.stationId ? { ...one, dutyWindows: [] } : one,
            );
            expect(soonest({ room: { ...room, stations }, run })).toBe(potted);
            break;
          }
          case 'wider-temperature':
            break;
        }
      }
    }),
    { numRuns: 300 },
  );
  for (const kind of ['pot-later', 'start-earlier', 'fewer-pails', 'other-hours']) {
    expect(kinds.get(kind)).toBeGreaterThan(0);
  }
});
