import fc from 'fast-check';
import { TRIAL_GRID, type GridSize } from '../../../src/core/honey/cylinder-grid';
import type { HoneyHeat } from '../../../src/core/honey/honey-heat';
import type { PailGroup } from '../../../src/core/honey/pail-group';
import { warmPails, type WarmingPlan } from '../../../src/core/honey/warm-pails';
import {
  cylinderLeft,
  cylinderMeanLeft,
  cylinderTerms,
  wallLeft,
  wallMeanLeft,
  wallTerms,
} from './analytic-conduction';

const MELTED: HoneyHeat = {
  conductivityWPerMK: 0.536,
  densityKgPerM3: 1421,
  specificHeatJPerKgK: 2260,
  meltingHeatJPerKg: 0,
  meltingFromC: 35,
  meltingToC: 45,
};
const SET: HoneyHeat = { ...MELTED, meltingHeatJPerKg: 16_300 };
const PAIL = { diameterM: 0.29, fillHeightM: 0.267 };
const PAIL_KG = 1421 * Math.PI * 0.145 ** 2 * 0.267;
const COARSE: GridSize = { rings: 4, layers: 5 };

const allRound = (film: number) => ({ sideWPerM2K: film, topWPerM2K: film, bottomWPerM2K: film });
const held = (temperatureC: number) =>
  ({ kind: 'held', temperatures: [{ fromHours: 0, temperatureC }] }) as const;
const pail = (changes: Partial<PailGroup> = {}): PailGroup => ({
  count: 1,
  shape: PAIL,
  honey: SET,
  films: allRound(5),
  startC: 12,
  ...changes,
});
const first = (plan: WarmingPlan) => warmPails(plan).groups[0]!;

/** Hours to clear in air that is held. */
const hoursToClear = (
  airC: number,
  changes: Partial<PailGroup> = {},
  plan: Partial<WarmingPlan> = {},
) => {
  const usual = { pails: [pail(changes)], air: held(airC), untilHours: 400, stopWhenClear: true };
  return first({ ...usual, ...plan }).clearAtHours!;
};

describe('warming a pail, against the exact series', () => {
  // Carslaw & Jaeger 1959; Çengel, ch. 4: the finite cylinder is the product of cylinder and wall.
  test.each([0.1, 0.5, 1, 2, 5, 10])(
    'at Bi %d core, surface, mean and extremes stay within 0.2 %% of the first difference',
    (biot) => {
      const [radiusM, halfM] = [0.145, 0.1335];
      const film = (biot * 0.536) / radiusM;
      const cylinder = cylinderTerms(biot, 10);
      const wall = wallTerms((film * halfM) / 0.536, 10);
      const [sideM2, endsM2] = [2 * Math.PI * radiusM * 2 * halfM, 2 * Math.PI * radiusM ** 2];

      const { samples } = first({
        pails: [pail({ honey: MELTED, films: allRound(film), startC: 0 })],
        air: held(100),
        untilHours: 48,
        clearC: 100,
      });

      for (const sample of samples.slice(1)) {
        const spread = (sample.atHours * 3600 * 0.536) / (1421 * 2260);
        const [alongRadius, alongHeight] = [spread / radiusM ** 2, spread / halfM ** 2];
        const rimLeft = cylinderLeft(cylinder, 1, alongRadius) * wallLeft(wall, 1, alongHeight);
        const coreLeft = cylinderLeft(cylinder, 0, alongRadius) * wallLeft(wall, 0, alongHeight);
        const meanLeft = cylinderMeanLeft(cylinder, alongRadius) * wallMeanLeft(wall, alongHeight);
        const surfaceLeft =
          (sideM2 * cylinderLeft(cylinder, 1, alongRadius) * wallMeanLeft(wall, alongHeight) +
            endsM2 * cylinderMeanLeft(cylinder, alongRadius) * wallLeft(wall, 1, alongHeight)) /
          (sideM2 + endsM2);

        expect(Math.abs(sample.coreC - 100 * (1 - coreLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.coldestC - 100 * (1 - coreLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.meanC - 100 * (1 - meanLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.surfaceC - 100 * (1 - surfaceLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.warmestC - 100 * (1 - rimLeft))).toBeLessThan(0.2);
      }
    },
  );

  test('a drum warmed through its side alone follows the long cylinder, and so do other films', () => {
    const cylinder = cylinderTerms((8 * 0.145) / 0.536, 10);
    const wall = wallTerms((8 * 0.267) / 0.536, 10);
    const spread = (24 * 3600 * 0.536) / (1421 * 2260);
    const at24h = (films: PailGroup['films']) =>
      first({
        pails: [pail({ honey: MELTED, films, startC: 0 })],
        air: held(100),
        untilHours: 24,
        clearC: 100,
      }).samples.at(-1)!;
    const none = allRound(0);

    // One face under a film and one that passes no heat: half of a wall twice as thick.
    const fromTop = at24h({ ...none, topWPerM2K: 8 });
    const fromBelow = at24h({ ...none, bottomWPerM2K: 8 });
    const expectedC = 100 * (1 - wallLeft(wall, 0.5, spread / 0.267 ** 2));
    const coldestC = 100 * (1 - wallLeft(wall, 0, spread / 0.267 ** 2));
    const warmestC = 100 * (1 - wallLeft(wall, 1, spread / 0.267 ** 2));
    for (const sample of [fromTop, fromBelow]) {
      expect(Math.abs(sample.coreC - expectedC)).toBeLessThan(0.2);
      expect(Math.abs(sample.coldestC - coldestC)).toBeLessThan(0.2);
      expect(Math.abs(sample.warmestC - warmestC)).toBeLessThan(0.2);
    }
    const fromSide = at24h({ ...none, sideWPerM2K: 8 });
    const sideC = 100 * (1 - cylinderLeft(cylinder, 0, spread / 0.145 ** 2));
    expect(Math.abs(fromSide.coreC - sideC)).toBeLessThan(0.2);
    expect(Math.abs(fromSide.coldestC - sideC)).toBeLessThan(0.2);
  });
});

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

describe('crystals', () => {
  const warmedAndCooled = () =>
    first({
      pails: [pail()],
      air: {
        kind: 'held',
        temperatures: [
          { fromHours: 0, temperatureC: 50 },
          { fromHours: 60, temperatureC: 15 },
        ],
      },
      untilHours: 200,
      keepCells: true,
    });

  test('warming takes their melting heat once, and cooling does not give it back', () => {
    const plan = { pails: [pail()], air: held(50), untilHours: 200 };
    const warmed = warmPails(plan).energy.pailsKWh * 3.6e6;
    const sensible = PAIL_KG * 2260 * (50 - 12);

    expect(warmed / (sensible + PAIL_KG * 16_300)).toBeCloseTo(1, 3);

    const both = warmPails({
      ...plan,
      air: {
        kind: 'held',
        temperatures: [
          { fromHours: 0, temperatureC: 50 },
          { fromHours: 200, temperatureC: 12 },
        ],
      },
      untilHours: 500,
    });
    expect((both.energy.pailsKWh * 3.6e6) / (PAIL_KG * 16_300)).toBeCloseTo(1, 2);
  });

  test('they melt within their range and stay melted', () => {
    const { samples } = warmedAndCooled();
    const melted = samples.map((sample) => sample.meltedPercent);

    expect(melted[0]).toBe(0);
    expect(melted).toEqual([...melted].sort((a, b) => a - b));
    expect(melted.at(-1)).toBeCloseTo(100, 9);
    for (const sample of samples) {
      if (sample.warmestC < 35 && sample.atHours < 60) expect(sample.meltedPercent).toBe(0);
    }
  });

  test('a pail held at 40 °C, halfway through their range, melts half of them', () => {
    const { samples } = first({ pails: [pail()], air: held(40), untilHours: 400 });

    expect(samples.at(-1)!.meltedPercent).toBeCloseTo(50, 1);
  });

  test('honey put in clear takes no melting heat', () => {
    const clear = { pails: [pail({ clear: true })], air: held(50), untilHours: 200 };

    const heat = warmPails(clear).energy.pailsKWh * 3.6e6;

    expect(heat / (PAIL_KG * 2260 * (50 - 12))).toBeCloseTo(1, 3);
  });

  test('a pail that goes in half melted is taken as melted to its temperature', () => {
    const { samples } = first({ pails: [pail({ startC: 38 })], air: held(50), untilHours: 200 });
    const heat = warmPails({ pails: [pail({ startC: 38 })], air: held(50), untilHours: 200 });

    expect(samples[0]!.meltedPercent).toBeCloseTo(30, 9);
    expect((heat.energy.pailsKWh * 3.6e6) / (PAIL_KG * (2260 * 12 + 0.7 * 16_300))).toBeCloseTo(
      1,
      3,
    );
  });

  test('the kept cells, by their shares, have the mean that is told', () => {
    const { samples, cellShare } = warmedAndCooled();

    expect(cellShare.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    const sample = samples[30]!;
    const mean = cellShare.reduce((sum, share, cell) => sum + share * sample.cellsC![cell]!, 0);
    expect(mean).toBeCloseTo(sample.meanC, 9);
  });
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

describe('a warming cabinet', () => {
  const cabinet = {
    heaterPowerW: 300,
    lossWPerK: 3,
    airCapacityJPerK: 20_000,
    roomC: 15,
    startC: 15,
  };
  const cabinetAir = (setC: number, changes: Partial<typeof cabinet> = {}) =>
    ({
      kind: 'cabinet',
      cabinet: { ...cabinet, ...changes },
      setPoints: [{ fromHours: 0, temperatureC: setC }],
    }) as const;

  test('what the heater gives is in the pails, in the air, or lost to the room', () => {
    const { energy, groups, air } = warmPails({
      pails: [pail({ count: 10 })],
      air: cabinetAir(45),
      untilHours: 96,
      keepCells: true,
    });

    const spent = energy.pailsKWh + energy.airKWh + energy.lostKWh;
    expect(Math.abs(spent / energy.heaterKWh - 1)).toBeLessThan(0.001);
    const metered = air.reduce((sum, { heaterW }) => sum + heaterW / 1000, 0);
    expect(metered).toBeCloseTo(energy.heaterKWh, 6);
    expect(energy.airKWh * 3.6e6).toBeCloseTo(20_000 * 30, 0);
    const end = groups[0]!.samples.at(-1)!;
    const held = 10 * PAIL_KG * (2260 * (end.meanC - 12) + (16_300 * end.meltedPercent) / 100);
    expect(Math.abs((energy.pailsKWh * 3.6e6) / held - 1)).toBeLessThan(0.001);
  });

  // Derived: 25 kg from 15 to 45 °C with 15 g of crystals per 100 g takes 2.10 MJ, 0.58 kWh.
  test('a 25 kg pail takes 0.58 kWh from 15 to 45 °C without losses', () => {
    const { energy } = warmPails({
      pails: [
        pail({ startC: 15, honey: SET, shape: { ...PAIL, fillHeightM: (0.267 * 25) / PAIL_KG } }),
      ],
      air: cabinetAir(45, { lossWPerK: 0, airCapacityJPerK: 0 }),
      untilHours: 400,
    });

    expect(energy.heaterKWh).toBeCloseTo(0.58, 2);
    expect(energy.lostKWh).toBe(0);
  });

  test('the heater never gives more than it has, nor less than nothing', () => {
    const { air } = warmPails({
      pails: [pail({ count: 10 })],
      air: {
        ...cabinetAir(45),
        setPoints: [
          { fromHours: 0, temperatureC: 45 },
          { fromHours: 50, temperatureC: 20 },
        ],
      },
      untilHours: 96,
    });

    for (const { heaterW } of air) {
      expect(heaterW).toBeLessThan(300 + 1e-6);
      expect(heaterW).toBeGreaterThan(-1e-6);
    }
    expect(air[1]!.heaterW).toBeCloseTo(300, 6);
    expect(air[55]!.heaterW).toBeCloseTo(0, 6);
    expect(air[55]!.airC).toBeGreaterThan(20);
    expect(air[49]!.airC).toBeCloseTo(45, 9);
  });

  // Steady state by hand: 300 W over 3 W/K is 100 K above the room.
  test('a heater too weak for its set point ends where it balances the loss', () => {
    const weak = warmPails({
      pails: [pail()],
      air: cabinetAir(80, { heaterPowerW: 60 }),
      untilHours: 400,
    });

    expect(weak.air.at(-1)!.airC).toBeCloseTo(15 + 60 / 3, 2);
  });

  test('an empty cabinet warms up as fast as its heater and its loss allow', () => {
    const plan = (untilHours: number) => ({
      pails: [pail({ inAtHours: 1000 })],
      air: cabinetAir(60),
      untilHours,
      longestStepMinutes: 0.5,
    });

    // By hand: 15 + 100·(1 − exp(−t·3/20000)) after half an hour.
    const { air, groups } = warmPails(plan(0.5));
    expect(air.at(-1)!.airC).toBeCloseTo(15 + 100 * (1 - Math.exp((-1800 * 3) / 20_000)), 0);
    expect(groups[0]!.samples).toEqual([]);
  });

  test('a strong heater makes a cabinet of held air', () => {
    const strong = first({
      pails: [pail()],
      air: cabinetAir(45, { heaterPowerW: 1e6 }),
      untilHours: 60,
    });

    expect(strong.clearAtHours).toBeCloseTo(hoursToClear(45), 6);
  });

  test('more pails in the cabinet make every one slower', () => {
    const clear = (count: number) =>
      first({ pails: [pail({ count })], air: cabinetAir(45), untilHours: 200 }).clearAtHours!;

    expect(clear(10)).toBeGreaterThan(clear(4) + 0.5);
    expect(clear(20)).toBeGreaterThan(clear(10) + 5);
  });

  test('ten pails alike and ten groups of one are the same', () => {
    const together = warmPails({
      pails: [pail({ count: 10, grid: TRIAL_GRID })],
      air: cabinetAir(45),
      untilHours: 40,
    });
    const apart = warmPails({
      pails: Array.from({ length: 10 }, () => pail({ grid: TRIAL_GRID })),
      air: cabinetAir(45),
      untilHours: 40,
    });

    expect(apart.energy.heaterKWh).toBeCloseTo(together.energy.heaterKWh, 9);
    expect(apart.groups[7]!.clearAtHours).toBeCloseTo(together.groups[0]!.clearAtHours!, 9);
  });

  test('pails put in later hold up those already there, and start at their own time', () => {
    const early = pail({ count: 2 });
    const late = pail({ count: 8, inAtHours: 12.25, startC: 8 });
    const plan = { air: cabinetAir(45), untilHours: 160 };

    const alone = warmPails({ ...plan, pails: [early] });
    const both = warmPails({ ...plan, pails: [early, late] });

    const [first, second] = both.groups;
    expect(second!.samples[0]!.atHours).toBe(13);
    expect(first!.samples[12]).toEqual(alone.groups[0]!.samples[12]);
    expect(first!.clearAtHours).toBeGreaterThan(alone.groups[0]!.clearAtHours! + 0.1);
    expect(second!.clearAtHours).toBeGreaterThan(first!.clearAtHours! + 5);
    expect(both.air[13]!.airC).toBeLessThan(alone.air[13]!.airC - 1);
  });
});

describe('air whose temperature was logged', () => {
  const logged = (...readings: [number, number][]) =>
    ({
      kind: 'logged',
      readings: readings.map(([atHours, temperatureC]) => ({ atHours, temperatureC })),
    }) as const;

  test('readings that never change are held air', () => {
    const found = first({ pails: [pail()], air: logged([0, 45], [100, 45]), untilHours: 60 });

    expect(found.clearAtHours).toBeCloseTo(hoursToClear(45), 9);
  });

  test('before the first and after the last reading those hold', () => {
    const { air } = warmPails({
      pails: [pail()],
      air: logged([2, 20], [4, 30], [5, 50]),
      untilHours: 7,
    });

    expect(air.map(({ airC }) => airC)).toEqual([20, 20, 20, 25, 30, 50, 50, 50]);
  });

  // By hand: honey that follows its air at once is where the air is; the film's lag is c·ρ·V/(h·A).
  test('a small jar follows slowly rising air, behind by its lag', () => {
    const radiusM = 0.01;
    const jar = pail({
      honey: MELTED,
      shape: { diameterM: 2 * radiusM, fillHeightM: 0.4 },
      films: { sideWPerM2K: 5, topWPerM2K: 0, bottomWPerM2K: 0 },
      startC: 20,
    });
    const { samples } = first({ pails: [jar], air: logged([0, 20], [40, 60]), untilHours: 20 });

    const lagHours = (1421 * 2260 * radiusM) / 2 / 5 / 3600;
    expect(samples.at(-1)!.meanC).toBeCloseTo(40 - lagHours, 1);
  });
});

describe('what is asked of a plan', () => {
  const plan = (changes: Partial<WarmingPlan>) => () =>
    warmPails({ pails: [pail({ grid: COARSE })], air: held(45), untilHours: 2, ...changes });
  const withPail = (changes: Partial<PailGroup>) =>
    plan({ pails: [pail({ grid: COARSE, ...changes })] });

  test.each([
    ['untilHours must be a number above 0', plan({ untilHours: 0 })],
    ['untilHours must be a number from 0 to 10000', plan({ untilHours: 10_001 })],
    ['pails must be at least one group', plan({ pails: [] })],
    ['sampleEveryHours must be a number above 0', plan({ sampleEveryHours: 0 })],
    ['longestStepMinutes must be a number above 0', plan({ longestStepMinutes: NaN })],
    ['clearC must be a number from 0 to 100', plan({ clearC: 101 })],
    ['seedC must be a number from 0 to 100', plan({ seedC: -1 })],
    ['count must be a whole number', withPail({ count: 1.5 })],
    ['count must be a number from 1 to 1000', withPail({ count: 0 })],
    ['startC must be a number from -40 to 100', withPail({ startC: 101 })],
    ['inAtHours must be a number from 0 to 10000', withPail({ inAtHours: -1 })],
    ['diameterM must be a number above 0', withPail({ shape: { ...PAIL, diameterM: 0 } })],
    ['diameterM must be a number from 0 to 5', withPail({ shape: { ...PAIL, diameterM: 5.1 } })],
    ['fillHeightM must be a number above 0', withPail({ shape: { ...PAIL, fillHeightM: 0 } })],
    ['fillHeightM must be a number from 0 to 5', withPail({ shape: { ...PAIL, fillHeightM: 6 } })],
    ['sideWPerM2K must be a number from 0 to 10000', withPail({ films: allRound(-1) })],
    ['topWPerM2K', withPail({ films: { ...allRound(5), topWPerM2K: 10_001 } })],
    ['bottomWPerM2K', withPail({ films: { ...allRound(5), bottomWPerM2K: -1 } })],
    ['rings must be a number from 3 to 200', withPail({ grid: { rings: 2, layers: 5 } })],
    ['rings must be a whole number', withPail({ grid: { rings: 3.5, layers: 5 } })],
    ['layers must be a number from 3 to 201', withPail({ grid: { rings: 3, layers: 203 } })],
    ['layers must be an odd whole number', withPail({ grid: { rings: 3, layers: 6 } })],
    ['conductivityWPerMK', withPail({ honey: { ...SET, conductivityWPerMK: 0 } })],
    ['densityKgPerM3', withPail({ honey: { ...SET, densityKgPerM3: -1 } })],
    ['specificHeatJPerKgK', withPail({ honey: { ...SET, specificHeatJPerKgK: 0 } })],
    ['meltingHeatJPerKg', withPail({ honey: { ...SET, meltingHeatJPerKg: -1 } })],
    [
      'meltingToC must be a number from 35.01 to 100',
      withPail({ honey: { ...SET, meltingToC: 35 } }),
    ],
    ['meltingFromC', withPail({ honey: { ...SET, meltingFromC: -51 } })],
  ])('%s', (message, run) => {
    expect(run).toThrow(RangeError);
    expect(run).toThrow(message);
  });

  const steps = (...hours: number[]) => hours.map((fromHours) => ({ fromHours, temperatureC: 40 }));
  const readings = (...hours: number[]) => hours.map((atHours) => ({ atHours, temperatureC: 40 }));
  const cabinet = { heaterPowerW: 300, lossWPerK: 3, airCapacityJPerK: 0, roomC: 15, startC: 15 };
  const withCabinet = (changes: Partial<typeof cabinet>) =>
    plan({
      air: { kind: 'cabinet', cabinet: { ...cabinet, ...changes }, setPoints: steps(0) },
    });

  test.each([
    ['temperatures must begin at hour 0', plan({ air: { kind: 'held', temperatures: [] } })],
    ['temperatures must begin at hour 0', plan({ air: { kind: 'held', temperatures: steps(1) } })],
    [
      'temperatures must follow each other in time; number 3 does not',
      plan({ air: { kind: 'held', temperatures: steps(0, 2, 2) } }),
    ],
    ['temperatureC must be a number from -40 to 120', plan({ air: held(121) })],
    ['readings must be at least 2', plan({ air: { kind: 'logged', readings: readings(0) } })],
    [
      'readings must follow each other in time; number 2 does not',
      plan({ air: { kind: 'logged', readings: readings(0, NaN) } }),
    ],
    [
      'temperatureC must be a number from -40 to 120',
      plan({
        air: { kind: 'logged', readings: [...readings(0), { atHours: 1, temperatureC: -41 }] },
      }),
    ],
    [
      'setPoints must begin at hour 0',
      plan({ air: { kind: 'cabinet', cabinet, setPoints: steps(1) } }),
    ],
    ['heaterPowerW must be a number above 0', withCabinet({ heaterPowerW: 0 })],
    ['lossWPerK must be a number from 0 to 10000', withCabinet({ lossWPerK: -1 })],
    ['airCapacityJPerK must be a number from 0 to', withCabinet({ airCapacityJPerK: -1 })],
    ['roomC must be a number from -40 to 120', withCabinet({ roomC: 121 })],
    ['startC must be a number from -40 to 120', withCabinet({ startC: -41 })],
  ])('%s', (message, run) => {
    expect(run).toThrow(RangeError);
    expect(run).toThrow(message);
  });
});
