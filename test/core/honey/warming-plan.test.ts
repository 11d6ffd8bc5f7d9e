import type { PailGroup } from '../../../src/core/honey/pail-group';
import { warmPails, type WarmingPlan } from '../../../src/core/honey/warm-pails';
import { allRound, COARSE, held, PAIL, pail, SET } from './pails';

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
