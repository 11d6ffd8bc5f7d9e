import { members, sources } from '../../demo/club';
import { makeSeason } from '../../demo/season';
import { demoSeed } from '../../demo/seed';
import { generations, impossibleBookings, impossibleMasses } from './season-checker';

/** Days of all seasons, of both halves of summer, and of a leap year. */
const days = [
  '2026-11-01',
  '2027-01-15',
  '2027-03-08',
  '2027-05-30',
  '2027-06-30',
  '2027-07-04',
  '2027-07-17',
  '2027-08-27',
  '2028-02-29',
];

describe.each(days)('two seasons up to %s', (day) => {
  const season = makeSeason(demoSeed, day);

  test('fit into the room: no place twice, no two duties at once, no crate in a closed station', () => {
    expect(impossibleBookings(season)).toEqual([]);
  });

  test('use no gram that is not there, and no seed before it was seen to have set', () => {
    expect(impossibleMasses(season)).toEqual([]);
  });

  test('hold at least 120 seeded batches of at least 8 members and of 10 floral sources', () => {
    const seeded = season.batches.filter(({ seededAt }) => seededAt !== null);

    expect(seeded.length).toBeGreaterThanOrEqual(120);
    expect(new Set(seeded.map(({ member }) => member)).size).toBeGreaterThanOrEqual(8);
    expect(members.filter(({ role }) => role === 'steward').length).toBeGreaterThanOrEqual(1);
    expect(sources).toHaveLength(10);
    const harvested = new Set(season.honeyLots.map(({ source }) => source));
    expect(harvested.size).toBe(10);
  });

  test('hold seed lines of three generations and more, and seed of one member in the batch of another', () => {
    expect(Math.max(...generations(season).values())).toBeGreaterThanOrEqual(3);
    const lent = season.loans.filter(({ ref, lender, borrower }) => {
      const users = season.batches.filter(({ seed }) => seed.some(({ lot }) => lot === ref));
      return lender !== borrower && users.some(({ member }) => member === borrower);
    });
    expect(lent.length).toBeGreaterThanOrEqual(1);
  });

  test('have most loans given back, some in parts, one waived, and one alone that is late', () => {
    const back = (ref: string) =>
      season.returns.filter(({ loan }) => loan === ref).reduce((sum, { massG }) => sum + massG, 0);
    const waived = new Set(season.waived.map(({ loan }) => loan));
    const open = season.loans.filter(({ ref, massG }) => back(ref) < massG && !waived.has(ref));
    const late = open.filter(({ dueOn }) => dueOn < day);

    expect(season.loans.length - open.length).toBeGreaterThan(0.8 * season.loans.length);
    expect(season.returns.length).toBeGreaterThan(season.loans.length - open.length - 1);
    expect(waived.size).toBeGreaterThanOrEqual(1);
    expect(waived.size).toBeLessThanOrEqual(3);
    for (const { ref, massG } of season.loans.filter((loan) => waived.has(loan.ref))) {
      expect(back(ref)).toBeLessThan(massG);
    }
    expect(late).toHaveLength(1);
    for (const { dueOn, at } of season.loans)
      expect(Date.parse(dueOn)).toBeGreaterThan(at.getTime());
  });

  test('leave one batch standing where its booking is over', () => {
    const standing = season.batches.filter(({ outstays }) => outstays);
    const ends = standing.flatMap(({ bookings }) => bookings).map(({ endsAt }) => endsAt.getTime());

    expect(standing).toHaveLength(1);
    expect(Math.max(...ends)).toBeLessThan(Date.parse(`${day}T00:00:00Z`));
  });

  test('tell of batches that set, that never did while somebody looked, that were given up, and that are still setting', () => {
    const outcomes = season.batches.map(({ outcome }) => outcome);
    const count = (wanted: string) => outcomes.filter((outcome) => outcome === wanted).length;

    expect(count('set')).toBeGreaterThan(80);
    expect(count('not seen set')).toBeGreaterThanOrEqual(3);
    expect(count('abandoned')).toBeGreaterThanOrEqual(2);
    expect(count('still setting')).toBeGreaterThanOrEqual(2);
    expect(count('planned') + count('warming')).toBeGreaterThanOrEqual(3);
  });

  test('file nothing as done that lies on the day itself or ahead', () => {
    const today = Date.parse(`${day}T00:00:00Z`);
    const times = [
      ...season.batches.flatMap(({ steps, looks }) => [...steps, ...looks]),
      ...season.loans,
      ...season.returns,
      ...season.withdrawals,
    ].map(({ at }) => at.getTime());

    expect(Math.max(...times)).toBeLessThan(today);
    expect(
      season.batches
        .flatMap(({ bookings }) => bookings)
        .some(({ startsAt }) => startsAt.getTime() > today),
    ).toBe(true);
  });

  test('do every step after the one before it, and look only at what was seeded', () => {
    for (const { steps, looks, seededAt } of season.batches) {
      const times = steps.map(({ at }) => at.getTime());
      expect(times).toEqual([...times].sort((a, b) => a - b));
      for (const { at } of looks) expect(at.getTime()).toBeGreaterThan(seededAt!.getTime());
    }
  });
});

test('the same seed and day give the same records, another seed gives others', () => {
  const season = makeSeason(7, '2027-04-01');

  expect(makeSeason(7, '2027-04-01')).toEqual(season);
  expect(makeSeason(8, '2027-04-01')).not.toEqual(season);
});

test('other seeds than the one of the demo fit into the room, too', () => {
  for (const seed of [1, 2, 3, 4, 5, 6]) {
    const season = makeSeason(seed, '2027-04-01');
    expect(impossibleBookings(season)).toEqual([]);
    expect(impossibleMasses(season)).toEqual([]);
  }
});

test('a day that is none is refused', () => {
  expect(() => makeSeason(1, 'today')).toThrow(RangeError);
});
