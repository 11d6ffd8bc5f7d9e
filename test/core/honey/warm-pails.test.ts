import fc from 'fast-check';
import { TRIAL_GRID } from '../../../src/core/honey/cylinder-grid';
import type { WarmingPlan } from '../../../src/core/honey/warm-pails';
import { cylinderLeft, cylinderTerms, wallLeft, wallTerms } from './analytic-conduction';
import { allRound, COARSE, first, held, hoursToClear, MELTED, pail, SET } from './pails';

describe('how long a pail takes to clear', () => {
  // Independent rough calculation: two-dimensional conduction on a coarse grid, 16.3 kJ/kg of melting
  // spread over 35 to 45 °C, air held, from 12 °C until the coldest point passes 40 °C.
  // Common practice, no source: about two days.
  test.each([
    [42, 5, 49],
    [45, 5, 35],
    [42, 8, 38],
    [45, 8, 27],
  ])('in air of %d °C with a film of %d W/m²·K it is clear after %d hours', (airC, film, hours) => {
    const found = hoursToClear(airC, { films: allRound(film) });

    expect(Math.abs(found / hours - 1)).toBeLessThan(0.1);
  });

  test('the answer does not hang on the grid: errors shrink, and are below 0.3 % even on trial', () => {
    const [trial, usual, fine, finest] = [
      TRIAL_GRID,
      undefined,
      { rings: 28, layers: 51 },
      { rings: 40, layers: 73 },
    ].map((grid) => hoursToClear(45, grid ? { grid } : {})) as [number, number, number, number];

    expect(Math.abs(trial / finest - 1)).toBeLessThan(0.003);
    expect(Math.abs(usual / finest - 1)).toBeLessThan(0.0005);
    expect(Math.abs(fine / finest - 1)).toBeLessThan(0.0001);
  });

  test('nor on the length of the steps', () => {
    const inSteps = (longestStepMinutes: number) =>
      first({ pails: [pail()], air: held(45), untilHours: 60, longestStepMinutes }).clearAtHours!;

    expect(Math.abs(inSteps(15) / inSteps(2) - 1)).toBeLessThan(0.001);
  });

  test('hotter air, a better film, fewer crystals and a warmer start each clear sooner', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 42, max: 60, noNaN: true }),
        fc.double({ min: 3, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 25_000, noNaN: true }),
        fc.double({ min: 5, max: 30, noNaN: true }),
        (airC, film, meltingHeatJPerKg, startC) => {
          const hours = (more: { airC?: number; film?: number; heat?: number; startC?: number }) =>
            hoursToClear(
              airC + (more.airC ?? 0),
              {
                films: allRound(film + (more.film ?? 0)),
                honey: { ...SET, meltingHeatJPerKg: meltingHeatJPerKg + (more.heat ?? 0) },
                startC: startC + (more.startC ?? 0),
                grid: COARSE,
              },
              { longestStepMinutes: 60, sampleEveryHours: 6 },
            );
          const usual = hours({});

          expect(hours({ airC: 1 })).toBeLessThan(usual);
          expect(hours({ film: 1 })).toBeLessThan(usual);
          expect(hours({ heat: 1000 })).toBeGreaterThan(usual);
          expect(hours({ startC: 1 })).toBeLessThan(usual);
        },
      ),
      { numRuns: 1000 },
    );
  }, 60_000);
});

describe('cooling before the seed', () => {
  const cooling = (changes: Partial<WarmingPlan> = {}) =>
    first({
      pails: [pail({ startC: 42, clear: true, honey: MELTED })],
      air: held(18),
      untilHours: 120,
      ...changes,
    });

  // Carslaw & Jaeger 1959: the core of the product solution reaches 24 °C, a quarter of the first
  // excess over 18 °C.
  test('seed is safe when the warmest point, in the end the core, is down to the limit', () => {
    const cylinder = cylinderTerms((5 * 0.145) / 0.536, 10);
    const wall = wallTerms((5 * 0.1335) / 0.536, 10);
    const { clearAtHours, seedSafeAtHours } = cooling();

    const spread = (seedSafeAtHours! * 3600 * 0.536) / (1421 * 2260);
    const left =
      cylinderLeft(cylinder, 0, spread / 0.145 ** 2) * wallLeft(wall, 0, spread / 0.1335 ** 2);
    expect(clearAtHours).toBe(0);
    expect(left).toBeCloseTo(0.25, 3);
  });

  test('a higher limit is reached sooner, one below the air never, and one above the start at once', () => {
    expect(cooling({ seedC: 28 }).seedSafeAtHours).toBeLessThan(cooling().seedSafeAtHours!);
    expect(cooling({ seedC: 17 }).seedSafeAtHours).toBeUndefined();
    expect(cooling({ seedC: 42 }).seedSafeAtHours).toBe(0);
  });

  test('honey that is cool but has not cleared is not called safe for seed', () => {
    const cold = first({ pails: [pail()], air: held(18), untilHours: 24 });

    expect(cold.clearAtHours).toBeUndefined();
    expect(cold.seedSafeAtHours).toBeUndefined();
  });

  test('after warming and cooling in one go, seed is safe once every point is down', () => {
    const { clearAtHours, seedSafeAtHours, samples } = first({
      pails: [pail()],
      air: {
        kind: 'held',
        temperatures: [
          { fromHours: 0, temperatureC: 45 },
          { fromHours: 40, temperatureC: 15 },
        ],
      },
      untilHours: 120,
    });

    expect(clearAtHours).toBeGreaterThan(30);
    expect(clearAtHours).toBeLessThan(40);
    const above = samples.filter((sample) => sample.atHours > 40 && sample.warmestC > 24);
    expect(seedSafeAtHours).toBeGreaterThan(above.at(-1)!.atHours);
    expect(seedSafeAtHours).toBeLessThan(above.at(-1)!.atHours + 1);
    const cooler = samples.find((sample) => sample.atHours === 50)!;
    expect(cooler.coldestC).toBeLessThan(cooler.surfaceC);
    expect(cooler.warmestC).toBeGreaterThanOrEqual(cooler.coreC - 1e-9);
  });
});
