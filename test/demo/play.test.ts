import { ApiClient } from '../../demo/api';
import { club, demoPassword, emailOf, founder, members } from '../../demo/club';
import { play } from '../../demo/play';
import { dayOf, type BatchRecord, type Season } from '../../demo/records';
import { makeSeason } from '../../demo/season';
import { demoSeed } from '../../demo/seed';
import { summaryOf } from '../../demo/summary';
import { lotsOutOfBalance } from '../support/lots';
import { useService } from '../support/service';

const service = useService();
const batchCount = 12;

interface Group {
  name: string;
  batchCount: number;
  setCount: number;
  observedCount: number;
  curve: { leftDays: number; rightDays: number | null; mass: number; stillSetting: number }[];
}

/** The first batches of a season, with all that they need. */
function firstBatches(season: Season, count: number): Season {
  const batches = season.batches.slice(0, count);
  const refs = new Set(batches.map(({ ref }) => ref));
  const used = new Set(
    batches.flatMap(({ honey, seed }) => [...honey, ...seed]).map(({ lot }) => lot),
  );
  // A loan may be made of what was lent before.
  const loans = season.loans.filter(({ ref }) => used.has(ref));
  const lent = new Set(loans.map(({ ref }) => ref));
  const lots = new Set([...used, ...loans.map(({ fromLot }) => fromLot)]);
  return {
    ...season,
    batches,
    loans,
    returns: season.returns.filter(
      ({ loan, fromLot }) => lent.has(loan) && refs.has(fromLot.replace('-seed', '')),
    ),
    waived: season.waived.filter(({ loan }) => lent.has(loan)),
    honeyLots: season.honeyLots.filter(({ ref }) => lots.has(ref)),
    boughtSeed: season.boughtSeed.filter(({ ref }) => lots.has(ref)),
    withdrawals: season.withdrawals.filter(
      ({ lot }) => lots.has(lot) || refs.has(lot.replace('-creamed', '')),
    ),
  };
}

/** When a batch set, in days after its seed was stirred in, as far as its looks tell; null: they tell nothing. */
function observed({ seededAt, looks }: BatchRecord): [number, number] | null {
  const start = seededAt!.getTime();
  let lower = 0;
  let upper = Infinity;
  for (const { at, state } of looks) {
    const days = (at.getTime() - start) / 86_400_000;
    if (state === 'set') upper = Math.min(upper, days);
    else lower = Math.max(lower, days);
  }
  return lower === 0 && upper === Infinity ? null : [lower, upper];
}

/**
 * The share of batches that had set by each of `times`, by expectation-maximization over every gap between two looks: slow, and
 * nothing in common with the service's way.
 */
function setByExpectation(
  intervals: readonly [number, number][],
  times: readonly number[],
): number[] {
  const ends = [...new Set(intervals.flat())].sort((a, b) => a - b);
  const gaps = ends.slice(1).map((end, index) => ({ from: ends[index]!, to: end }));
  let masses = gaps.map(() => 1 / gaps.length);
  for (let step = 0; step < 20_000; step += 1) {
    const next = gaps.map(() => 0);
    for (const [lower, upper] of intervals) {
      const within = gaps.map(({ from, to }) => from >= lower && to <= upper);
      const sum = masses.reduce((total, mass, gap) => (within[gap] ? total + mass : total), 0);
      masses.forEach((mass, gap) => {
        if (within[gap]) next[gap]! += mass / sum / intervals.length;
      });
    }
    masses = next;
  }
  return times.map((time) =>
    masses.reduce((total, mass, gap) => (gaps[gap]!.to <= time ? total + mass : total), 0),
  );
}

describe('the first batches of the demo, played through the API', () => {
  const season = firstBatches(makeSeason(demoSeed, dayOf(new Date())), batchCount);
  let steward: ApiClient;
  let path: string;

  beforeAll(async () => {
    const client = new ApiClient(service.url);
    expect(await play(client, season, () => undefined)).toBe(true);

    const [signedIn, { clubs }] = await client.signIn<{
      clubs: { clubId: string; clubName: string }[];
    }>(emailOf(founder), demoPassword);
    steward = signedIn;
    path = `/clubs/${clubs[0]!.clubId}`;
    expect(clubs).toMatchObject([{ clubName: club.name }]);
  });

  test('stand there with their members, lots and bookings', async () => {
    const batches = await steward.get<{ items: { stage: string }[] }>(`${path}/batches?limit=200`);
    const people = await steward.get<{ items: object[] }>(`${path}/members`);
    const bookings = await steward.get<{ items: object[] }>(`${path}/bookings?limit=200`);

    expect(batches.items).toHaveLength(batchCount);
    expect(people.items).toHaveLength(members.length);
    expect(bookings.items).toHaveLength(season.batches.flatMap((one) => one.bookings).length);
    const overstays = await steward.get<{ items: object[] }>(`${path}/overstays`);
    expect(overstays.items).toEqual([]);
  });

  test('leave a ledger that closes to the gram', async () => {
    expect(await lotsOutOfBalance(service)).toEqual([]);
    const lots = await steward.get<{ items: { name: string; initialMassKg: number }[] }>(
      `${path}/lots?limit=200`,
    );
    const putBy = season.batches.filter(({ potting }) => potting!.seedPutByG > 0);
    const expected =
      season.honeyLots.length +
      season.boughtSeed.length +
      season.loans.length +
      season.returns.length +
      season.batches.length +
      putBy.length;
    expect(lots.items).toHaveLength(expected);
  });

  test('have the setting times that expectation-maximization finds in the plain records', async () => {
    const { all, groups } = await steward.get<{ all: Group; groups: Group[] }>(
      `${path}/setting-times`,
    );
    const bySource = new Map<string, BatchRecord[]>([['all', season.batches]]);
    for (const batch of season.batches) {
      bySource.set(batch.source, [...(bySource.get(batch.source) ?? []), batch]);
    }
    expect(new Set([all, ...groups].map(({ name }) => name))).toEqual(new Set(bySource.keys()));

    for (const { name, curve, ...counts } of [all, ...groups]) {
      const batches = bySource.get(name)!;
      const intervals = batches.flatMap((batch) => {
        const known = observed(batch);
        return known === null ? [] : [known];
      });
      expect(counts).toMatchObject({
        batchCount: batches.length,
        observedCount: intervals.length,
        setCount: intervals.filter(([, upper]) => upper < Infinity).length,
      });
      const known = curve.filter(({ rightDays }) => rightDays !== null);
      const slow = setByExpectation(
        intervals,
        known.map(({ rightDays }) => rightDays!),
      );
      // 20 000 steps of EM come this near where masses die out slowly.
      known.forEach(({ stillSetting }, index) => {
        expect(Math.abs(1 - slow[index]! - stillSetting)).toBeLessThan(1e-3);
      });
    }
  });

  test('can be told in a few lines', async () => {
    const summary = await summaryOf(steward);

    expect(summary).toMatch(/^floral source +batches/);
    expect(summary).toMatch(/The newest batch, B0\d\d .*, is of the \d+(st|nd|rd|th) generation/);
    expect(summary).toContain('Invented data.');
  });

  test('are not played a second time', async () => {
    const words: string[] = [];

    expect(await play(new ApiClient(service.url), season, (line) => words.push(line))).toBe(false);
    expect(words).toEqual([]);
    const clubs = await steward.get<{ items: object[] }>('/clubs');
    expect(clubs.items).toHaveLength(1);
  });
});
