import { heatDamage } from '../../../src/core/honey/keeping';
import { pailDamage } from '../../../src/core/honey/pail-damage';
import { historyOfReadings, historyOfSteps } from '../../../src/core/honey/temperature-history';
import { warmPails } from '../../../src/core/honey/warm-pails';

const held = (hours: number, temperatureC: number) =>
  heatDamage(historyOfSteps([{ hours, temperatureC }]));

describe('what a warming costs across a pail', () => {
  const warmed = (keepCells: boolean) =>
    warmPails({
      pails: [
        {
          count: 1,
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
          grid: { rings: 6, layers: 7 },
        },
      ],
      air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: 50 }] },
      untilHours: 48,
      keepCells,
    }).groups[0]!;

  test('the edge suffers most, the core least, and the mean lies between', () => {
    const group = warmed(true);

    const { worst, best, mean } = pailDamage(group)!;

    const core = heatDamage(
      historyOfReadings(
        group.samples.map(({ atHours, coreC }) => ({ atHours, temperatureC: coreC })),
        2,
      ),
    );
    const edge = heatDamage(
      historyOfReadings(
        group.samples.map(({ atHours, warmestC }) => ({ atHours, temperatureC: warmestC })),
        2,
      ),
    );
    expect(worst.diastaseLeft).toBeLessThan(mean.diastaseLeft);
    expect(mean.diastaseLeft).toBeLessThan(best.diastaseLeft);
    expect(Math.abs(best.diastaseLeft - core.diastaseLeft)).toBeLessThan(0.002);
    expect(worst).toEqual(edge);
    expect(worst.hmfGainMgPerKg.likely).toBeGreaterThan(mean.hmfGainMgPerKg.likely);
    expect(mean.hmfGainMgPerKg.least).toBeLessThan(mean.hmfGainMgPerKg.likely);
    expect(mean.hmfGainMgPerKg.likely).toBeLessThan(mean.hmfGainMgPerKg.most);
    expect(mean.hours).toBe(48);
    expect(mean.gapHours).toBe(0);
    expect(mean.hoursBelowRange).toBe(0);
  });

  test('a pail all at one temperature suffers the same everywhere', () => {
    const cellsC = Float64Array.of(45, 45);
    const temperatures = { coreC: 45, surfaceC: 45, meanC: 45, coldestC: 45, warmestC: 45 };
    const sample = (atHours: number) => ({ ...temperatures, meltedPercent: 0, atHours, cellsC });

    const found = pailDamage({
      samples: [sample(0), sample(24)],
      cellShare: Float64Array.of(0.25, 0.75),
    })!;

    for (const part of [found.worst, found.best, found.mean]) {
      expect(part.diastaseLeft).toBeCloseTo(held(24, 45).diastaseLeft, 12);
      expect(part.invertaseLeft).toBeCloseTo(held(24, 45).invertaseLeft, 12);
      expect(part.hmfGainMgPerKg.most).toBeCloseTo(held(24, 45).hmfGainMgPerKg.most, 12);
    }
  });

  test('without the cells there is no answer, and one sample is too few', () => {
    expect(() => pailDamage(warmed(false))).toThrow(/cellsC must be kept with every sample/);
    expect(pailDamage({ samples: [], cellShare: Float64Array.of(1) })).toBeUndefined();
  });
});
