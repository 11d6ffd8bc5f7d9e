import {
  gentlestClearing,
  type ClearingQuestion,
} from '../../../src/core/honey/clearing-temperature';
import { TRIAL_GRID } from '../../../src/core/honey/cylinder-grid';
import type { PailGroup } from '../../../src/core/honey/pail-group';
import { warmPails } from '../../../src/core/honey/warm-pails';

const cabinet = {
  heaterPowerW: 300,
  lossWPerK: 3,
  airCapacityJPerK: 20_000,
  roomC: 15,
  startC: 15,
};
const pail = (changes: Partial<PailGroup> = {}): PailGroup => ({
  count: 4,
  shape: { diameterM: 0.29, fillHeightM: 0.267 },
  honey: {
    conductivityWPerMK: 0.536,
    densityKgPerM3: 1421,
    specificHeatJPerKgK: 2260,
    meltingHeatJPerKg: 16_300,
    meltingFromC: 35,
    meltingToC: 45,
  },
  films: { sideWPerM2K: 5, topWPerM2K: 5, bottomWPerM2K: 5 },
  startC: 12,
  ...changes,
});
const ask = (changes: Partial<ClearingQuestion> = {}) =>
  gentlestClearing({ pails: [pail()], cabinet, deadlineHours: 72, ...changes });
const DEFAULT_ANSWER = ask();
const found = (changes?: Partial<ClearingQuestion>) => {
  const answer = changes ? ask(changes) : DEFAULT_ANSWER;
  if (answer.kind !== 'found') throw new Error('not found');
  return answer;
};
const clearIn = (setC: number, pails = [pail({ grid: TRIAL_GRID })]) =>
  warmPails({
    pails,
    air: { kind: 'cabinet', cabinet, setPoints: [{ fromHours: 0, temperatureC: setC }] },
    untilHours: 200,
    stopWhenClear: true,
  });

describe('the gentlest way to clear honey by a deadline', () => {
  // Common practice, no source: usual club maximum about 45 °C, about two days.
  test('with time to spare it is about 45 °C, neither hotter nor barely warm enough', () => {
    const { gentlest, soonest } = found();

    expect(gentlest.setC).toBeGreaterThan(43);
    expect(gentlest.setC).toBeLessThan(46);
    expect(gentlest.clearAtHours).toBeLessThan(72);
    expect(soonest.setC).toBe(50);
    expect(gentlest.damage.worst.diastaseLeft).toBeGreaterThan(soonest.damage.worst.diastaseLeft);
  });

  test('what is clear from the start needs no time', () => {
    const { gentlest } = found({ pails: [pail({ startC: 41, grid: TRIAL_GRID })] });

    expect(gentlest.clearAtHours).toBe(0);
    expect(gentlest.damage.worst.diastaseLeft).toBeLessThanOrEqual(1);
  });

  test('no other set point about it that clears in time does better', () => {
    const pails = [pail({ grid: { rings: 4, layers: 5 } })];
    const { gentlest } = found({ pails });

    for (let setC = 43.1; setC <= 46.5; setC += 0.3) {
      const only = ask({ pails, hottestC: setC });
      if (only.kind === 'too-late') continue;
      expect(only.soonest.damage.worst.diastaseLeft).toBeLessThanOrEqual(
        gentlest.damage.worst.diastaseLeft + 2e-5,
      );
    }
  });

  test('two fifths of a degree to either side does worse', () => {
    const { gentlest } = found();

    for (const offset of [-0.4, 0.4]) {
      const beside = found({ hottestC: gentlest.setC + offset }).soonest;
      expect(beside.damage.worst.diastaseLeft).toBeLessThan(gentlest.damage.worst.diastaseLeft);
    }
    expect(Math.abs(gentlest.setC - Math.round(gentlest.setC))).toBeGreaterThan(0.1);
  });

  test('what it tells is what the reckoning of that set point gives', () => {
    const { gentlest, soonest } = found();

    const again = clearIn(soonest.setC);
    expect(soonest.clearAtHours).toBe(again.groups[0]!.clearAtHours);
    expect(soonest.heaterKWh).toBe(again.energy.heaterKWh);
    expect(gentlest.clearAtHours).toBe(clearIn(gentlest.setC).groups[0]!.clearAtHours);
  });

  test('the two days of cooling count', () => {
    const { soonest } = found();

    expect(soonest.damage.worst.hours).toBeCloseTo(soonest.clearAtHours + 48.05, 9);
    expect(soonest.damage.worst.diastaseLeft).toBeLessThan(soonest.damage.mean.diastaseLeft);
  });

  test('a tight deadline asks for more heat, and more damage', () => {
    const easy = found();
    const tight = found({ deadlineHours: 30 });

    expect(tight.gentlest.clearAtHours).toBeLessThanOrEqual(30);
    expect(tight.gentlest.clearAtHours).toBeGreaterThan(29);
    expect(tight.gentlest.setC).toBeGreaterThan(easy.gentlest.setC + 1);
    expect(tight.gentlest.damage.worst.diastaseLeft).toBeLessThan(
      easy.gentlest.damage.worst.diastaseLeft,
    );
  });

  test('if even the hottest set point takes too long, the answer says so', () => {
    expect(ask({ deadlineHours: 20 })).toEqual({ kind: 'too-late', hottestC: 50 });
    expect(ask({ deadlineHours: 30, hottestC: 45 })).toEqual({ kind: 'too-late', hottestC: 45 });
  });

  test('the slowest group sets the time', () => {
    const small = pail({ count: 1, shape: { diameterM: 0.2, fillHeightM: 0.2 } });
    const { soonest } = found({ pails: [small, pail()] });

    const again = clearIn(50, [
      { ...small, grid: TRIAL_GRID },
      { ...pail(), grid: TRIAL_GRID },
    ]);
    expect(soonest.clearAtHours).toBe(again.groups[1]!.clearAtHours);
    expect(again.groups[0]!.clearAtHours).toBeLessThan(soonest.clearAtHours - 5);
  });

  test('a lower clearing temperature is reached at a lower set point', () => {
    const { gentlest } = found({ clearC: 35 });

    expect(gentlest.setC).toBeLessThan(found().gentlest.setC - 2);
  });

  test('questions without sense are refused', () => {
    expect(() => ask({ deadlineHours: 0 })).toThrow(/deadlineHours must be a number above 0/);
    expect(() => ask({ deadlineHours: 2001 })).toThrow(/deadlineHours must be a number from 0 to/);
    expect(() => ask({ hottestC: 40.4 })).toThrow(/hottestC must be a number from 40.5 to 80/);
    expect(() => ask({ hottestC: 80.1 })).toThrow(/hottestC must be a number from 40.5 to 80/);
  });
});
