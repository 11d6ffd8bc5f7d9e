import { coreLogOf } from '../../demo/probe-log';
import { makeSeason } from '../../demo/season';
import { demoSeed } from '../../demo/seed';

const { batches } = makeSeason(demoSeed, '2026-11-28');
const now = new Date('2026-11-28T12:00:00Z');
const warmed = batches.filter(({ steps }) => steps.some(({ kind }) => kind === 'cooled'));

test('the logged core agrees with what was written down at the steps', () => {
  expect(warmed.length).toBeGreaterThan(50);
  for (const batch of warmed) {
    const log = coreLogOf(batch, now);
    for (const { kind, at, temperatureC } of batch.steps) {
      if (kind !== 'loaded' && kind !== 'cleared' && kind !== 'cooled') continue;
      const nearest = log.reduce((best, one) =>
        Math.abs(+one.at - +at) < Math.abs(+best.at - +at) ? one : best,
      );
      expect(Math.abs(nearest.temperatureC - temperatureC!)).toBeLessThan(0.6);
    }
  }
});

test('nothing is logged in the future, nor of a batch that was not loaded', () => {
  const isLoaded = ({ steps }: (typeof batches)[number]) =>
    steps.some(({ kind }) => kind === 'loaded');
  const unloaded = batches.filter((batch) => !isLoaded(batch));
  expect(unloaded.length).toBeGreaterThan(0);
  expect(unloaded.flatMap((batch) => coreLogOf(batch, now))).toEqual([]);
  // Early on in the season nearly all of it is still to come.
  const early = new Date('2026-03-01T12:00:00Z');
  for (const clock of [now, early]) {
    const logged = batches.filter(isLoaded).flatMap((batch) => coreLogOf(batch, clock));
    expect(logged.filter(({ at }) => at > clock)).toEqual([]);
    expect(logged.length).toBeGreaterThan(0);
  }
});
