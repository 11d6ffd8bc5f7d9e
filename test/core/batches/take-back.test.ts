import { stepOrder } from '../../../src/core/batches/next-steps';
import { whyStepStays } from '../../../src/core/batches/take-back';

const filed = Date.UTC(2026, 0, 1);
const minutes = (count: number) => filed + count * 60_000;

test.each([
  ['loaded', ['loaded'], 15, null],
  ['loaded', ['loaded'], 15.01, 'too-late'],
  ['loaded', ['loaded', 'cleared'], 1, 'followed'],
  ['cleared', ['loaded', 'cleared'], 1, null],
  ['seeded', ['seeded'], 0, 'moves-mass'],
  ['potted', ['seeded', 'potted'], 0, 'moves-mass'],
  ['shelved', ['seeded', 'potted', 'shelved'], 3, null],
  ['set', ['seeded', 'set'], 0, 'rests-on-a-look'],
  ['abandoned', ['loaded', 'abandoned'], 14, null],
] as const)('%s, of %p, %p minutes after it was filed: %p', (kind, done, after, why) => {
  expect(whyStepStays(kind, filed, [...done], minutes(after))).toBe(why);
});

test('of the steps filed, at most one can be taken back: the last', () => {
  for (const [index] of stepOrder.entries()) {
    const done = stepOrder.slice(0, index + 1);
    const free = done.filter((kind) => whyStepStays(kind, filed, done, filed) === null);
    expect(free.length).toBeLessThanOrEqual(1);
    for (const kind of free) expect(kind).toBe(done.at(-1));
  }
});
