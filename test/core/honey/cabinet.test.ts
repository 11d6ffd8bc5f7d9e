import { TRIAL_GRID } from '../../../src/core/honey/cylinder-grid';
import { warmPails } from '../../../src/core/honey/warm-pails';
import { first, hoursToClear, MELTED, PAIL, PAIL_KG, pail, SET } from './pails';

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
