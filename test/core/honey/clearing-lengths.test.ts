import { clearingLengths } from '../../../src/core/honey/clearing-lengths';
import { MELTING_RANGE_BY_GRAIN } from '../../../src/core/honey/crystals';
import { TRIAL_GRID } from '../../../src/core/honey/cylinder-grid';
import { honeyHeat } from '../../../src/core/honey/honey-heat';
import { warmPails } from '../../../src/core/honey/warm-pails';
import { worstDamage } from '../../../src/core/honey/pail-damage';

const honey = honeyHeat({ waterPercent: 17.4, crystalPercent: 15, ...MELTING_RANGE_BY_GRAIN.fine });
const pail = {
  shape: { diameterM: 0.28, fillHeightM: 0.28 },
  honey,
  films: { sideWPerM2K: 5, topWPerM2K: 5, bottomWPerM2K: 5 },
  startC: 12,
  grid: TRIAL_GRID,
};
const question = {
  pail,
  airC: 45,
  roomC: 18,
  clearC: 40,
  seedC: 24,
  lengthsFrom: (least: number) => [least + 5, 48],
  mostHours: 120,
  roundUpToHours: 0.25,
};

test('the least length is that of the reckoning of one pail, rounded up', () => {
  const warmed = warmPails({
    pails: [{ ...pail, count: 1 }],
    air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: 45 }] },
    untilHours: 120,
  });
  const clearAtHours = warmed.groups[0]!.clearAtHours!;

  const [least, longer, days] = clearingLengths(question);

  expect(least!.hours).toBeGreaterThanOrEqual(clearAtHours);
  expect(least!.hours - clearAtHours).toBeLessThan(0.25);
  expect([longer!.hours, days!.hours]).toEqual([least!.hours + 5, 48]);
});

test('damage is that of warming and cooling in one reckoning, and never less', () => {
  const [length] = clearingLengths(question);
  const air = [
    { fromHours: 0, temperatureC: 45 },
    { fromHours: length!.hours, temperatureC: 18 },
  ];
  const whole = warmPails({
    pails: [{ ...pail, count: 1 }],
    air: { kind: 'held', temperatures: air },
    untilHours: length!.hours + 48,
  });
  const { diastaseLeft, hmfGainMgPerKg } = worstDamage(whole.groups[0]!);

  // Leaving the warmth at the air's temperature throughout overstates a little: less than a hundredth of the diastase.
  expect(length!.damage.diastaseLeft).toBeLessThanOrEqual(diastaseLeft + 1e-3);
  expect(diastaseLeft - length!.damage.diastaseLeft).toBeLessThan(0.01);
  expect(length!.damage.hmfGainMgPerKg.likely / hmfGainMgPerKg.likely).toBeCloseTo(1.1, 0);
  expect(length!.coolingHours).toBeGreaterThanOrEqual(
    whole.groups[0]!.seedSafeAtHours! - length!.hours,
  );
});

test('longer costs more; warmer air is sooner clear', () => {
  const lengths = clearingLengths(question);
  const left = lengths.map(({ damage }) => damage.diastaseLeft);
  expect(left).toEqual(left.toSorted((a, b) => b - a));
  expect(new Set(left).size).toBe(left.length);
  const [warmer] = clearingLengths({ ...question, airC: 50 });
  expect(warmer!.hours).toBeLessThan(lengths[0]!.hours);
});

test('air no warmer than clear honey clears nothing, nor does too short a time or too warm a room', () => {
  expect(clearingLengths({ ...question, airC: 40 })).toEqual([]);
  expect(clearingLengths({ ...question, mostHours: 10 })).toEqual([]);
  expect(clearingLengths({ ...question, roomC: 24 })).toEqual([]);
  expect(() => clearingLengths({ ...question, roundUpToHours: 0 })).toThrow(RangeError);
});
