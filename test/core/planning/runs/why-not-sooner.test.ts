import fc from 'fast-check';
import { planRun } from '../../../../src/core/planning/runs/plan-run';
import type { Room, RoomStation, Run, WhyNotSooner } from '../../../../src/core/planning/runs/run';
import type { Duty } from '../../../../src/core/planning/station-times';
import { MINUTE_MS } from '../small-stations';
import { everyRun } from './chain-oracle';
import { smallClub } from './random-rooms';

const ALWAYS = [{ startsAt: -8e15, endsAt: 8e15 }];

type Club = { readonly room: Room; readonly run: Run };

/** The club without one constraint, made by hand; only where that concerns no other slot. */
function relaxed(room: Room, run: Run): Map<string, Club> {
  const clubs = new Map<string, Club>([
    ['opening-hours', { room: { ...room, openSpans: ALWAYS }, run }],
    ['members-hours', { room, run: { ...run, memberSpans: ALWAYS } }],
    ['potting-day', { room: { ...room, days: ALWAYS }, run }],
  ]);
  for (const duty of ['warm', 'bench', 'cool'] as const) {
    const serving = room.stations.filter((one) => one.duties.includes(duty));
    if (serving.some((one) => one.duties.length > 1)) continue;
    const change = (rest: (station: RoomStation) => Partial<RoomStation>) => ({
      room: {
        ...room,
        stations: room.stations.map((one) =>
          serving.includes(one) ? { ...one, ...rest(one) } : one,
        ),
      },
      run,
    });
    clubs.set(
      `${duty} closed`,
      change(() => ({ closures: [] })),
    );
    if (duty === 'warm') continue;
    const shares = ({ minC, maxC }: { minC: number; maxC: number }) =>
      minC <= run[duty].maxC && run[duty].minC <= maxC;
    const only = (keep: (booking: { minC: number; maxC: number }) => boolean) =>
      change(({ bookings }) => ({ bookings: bookings.filter(keep) }));
    clubs.set(
      `${duty} places`,
      only((booking) => !shares(booking)),
    );
    clubs.set(`${duty} temperature`, only(shares));
  }
  return clubs;
}

function soonest(room: Room, run: Run): number {
  let pottedAt = Infinity;
  everyRun(room, run, MINUTE_MS, (found) => {
    pottedAt = Math.min(pottedAt, found.pottedAt);
  });
  return pottedAt;
}

const bySlot: Record<string, Duty> = { warm: 'warm', bench: 'bench', cool: 'cool' };
const named = ({ obstacles }: WhyNotSooner, key: string) =>
  obstacles.find(({ slot, reason }) => (slot ? `${bySlot[slot]} ${reason}` : reason) === key);

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
        const without = soonest(club.room, club.run);
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
  console.log([...seen]);
  for (const key of ['opening-hours', 'members-hours', 'potting-day', 'cool places', 'together']) {
    expect(seen.get(key)).toBeGreaterThan(0);
  }
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
            expect(soonest(room, { ...run, latestPotAt: change.latestPotAt })).toBe(potted);
            expect(soonest(room, { ...run, latestPotAt: potted - MINUTE_MS })).toBe(Infinity);
            break;
          case 'start-earlier': {
            const { earliestStart } = change;
            expect(soonest(room, { ...run, earliestStart })).toBe(potted);
            const later = { ...run, earliestStart: earliestStart + MINUTE_MS };
            expect(soonest(room, later)).toBe(Infinity);
            break;
          }
          case 'fewer-pails': {
            const { pails, crates } = change;
            const cool = { ...run.cool, crates };
            expect(soonest(room, { ...run, pails, cool })).toBe(potted);
            break;
          }
          case 'other-hours':
            expect(soonest(room, { ...run, memberSpans: ALWAYS })).toBe(potted);
            break;
          case 'room-open-longer':
            expect(soonest({ ...room, openSpans: ALWAYS }, run)).toBe(potted);
            break;
          case 'duty-window': {
            const stations = room.stations.map((one) =>
              one.stationId === change.stationId ? { ...one, dutyWindows: [] } : one,
            );
            expect(soonest({ ...room, stations }, run)).toBe(potted);
            break;
          }
          case 'wider-temperature':
            break;
        }
      }
    }),
    { numRuns: 300 },
  );
  console.log([...kinds]);
  for (const kind of ['pot-later', 'start-earlier', 'fewer-pails', 'other-hours', 'duty-window']) {
    expect(kinds.get(kind)).toBeGreaterThan(0);
  }
});
