import { MELTING_RANGE_BY_GRAIN } from '../../../src/core/honey/crystals';
import { TRIAL_GRID } from '../../../src/core/honey/cylinder-grid';
import { honeyHeat } from '../../../src/core/honey/honey-heat';
import { pailCourse } from '../../../src/core/honey/pail-course';
import { warmPails } from '../../../src/core/honey/warm-pails';

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
  outAtHours: 48,
  roomC: 18,
  clearC: 40,
  seedC: 24,
  mostHours: 240,
};

test('a pail warms and cools as one reckoning of both says', () => {
  const temperatures = [
    { fromHours: 0, temperatureC: 45 },
    { fromHours: 48, temperatureC: 18 },
  ];
  const whole = warmPails({
    pails: [{ ...pail, count: 1 }],
    air: { kind: 'held', temperatures },
    untilHours: 120,
  }).groups[0]!;

  const course = pailCourse(question);

  expect(course.outAtHours).toBe(48);
  expect(course.clearAtHours).toBeCloseTo(whole.clearAtHours!, 1);
  expect(course.coolEnoughAtHours).toBeCloseTo(whole.seedSafeAtHours!, 1);
  expect(course.samples[0]).toMatchObject({ atHours: 0, airC: 45 });
  expect(course.samples.at(-1)!.airC).toBe(18);
  // It ends with the first sample that is cool enough.
  expect(course.samples.at(-1)!.warmestC).toBeLessThanOrEqual(24);
  expect(course.samples.at(-2)!.warmestC).toBeGreaterThan(24);
  expect(course.samples.length).toBeLessThanOrEqual(200);
});

test('untold, it is taken out at the quarter of an hour after it is clear', () => {
  const course = pailCourse({ ...question, outAtHours: null });

  const waitHours = course.outAtHours! - course.clearAtHours!;
  expect(waitHours > 0 && waitHours <= 0.26).toBe(true);
  expect(course.outAtHours! % 0.25).toBe(0);
  expect(course.coolEnoughAtHours!).toBeGreaterThan(course.outAtHours!);
  expect(course.damage!.worst.diastaseLeft).toBeLessThan(course.damage!.mean.diastaseLeft);
});

test('taken out too early it never counts as clear, though its core warms on', () => {
  const { clearAtHours } = pailCourse(question);

  const early = pailCourse({ ...question, outAtHours: clearAtHours! - 0.5 });

  expect(early.clearAtHours).toBeUndefined();
  expect(early.coolEnoughAtHours).toBeUndefined();
  expect(early.samples.at(-1)!.atHours).toBeGreaterThan(early.outAtHours! + 11);
});

test('air that is too cool clears nothing', () => {
  const course = pailCourse({ ...question, airC: 38, outAtHours: null, mostHours: 60 });

  expect(course.clearAtHours).toBeUndefined();
  expect(course.outAtHours).toBeUndefined();
  expect(course.samples.every(({ airC }) => airC === 38)).toBe(true);
});
