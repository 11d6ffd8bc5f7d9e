import { coreLogOf } from '../../demo/probe-log';
import { makeSeason } from '../../demo/season';
import { demoSeed } from '../../demo/seed';
import { fitWarming } from '../../src/core/honey/fit-warming';
import { usualPail } from '../../src/reckonings/usual-pail';

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

test('it is the log of a pail: what the service fits to it is what pails are like', () => {
  for (const batch of warmed.slice(-3)) {
    const [loaded, cleared] = ['loaded', 'cleared'].map((kind) =>
      batch.steps.find((step) => step.kind === kind),
    );
    const warm = batch.bookings.find(({ duty }) => duty === 'warm')!;
    const hours = (at: Date) => (+at - +loaded!.at) / 3_600_000;
    const airC = (warm.minC + warm.maxC) / 2;
    const { shape, honey } = usualPail(
      Math.min(25, Math.max(...batch.honey.map(({ massG }) => massG)) / 1000),
      17.4,
      loaded!.temperatureC!,
    );

    const fit = fitWarming({
      shape,
      honey,
      coreReadings: coreLogOf(batch, now)
        .filter(({ at }) => at <= cleared!.at)
        .map(({ at, temperatureC }) => ({ atHours: hours(at), temperatureC })),
      airReadings: [0, 1].map((atHours) => ({ atHours, temperatureC: airC })),
    });

    if (fit.kind !== 'fitted') throw new Error(fit.kind);
    expect(fit.scatterC).toBeLessThan(0.1);
    expect(Math.abs(fit.crystalPercent.value - 15)).toBeLessThan(1);
    expect(fit.filmWPerM2K.value).toBeGreaterThan(2);
    expect(fit.filmWPerM2K.value).toBeLessThan(10);
  }
});
