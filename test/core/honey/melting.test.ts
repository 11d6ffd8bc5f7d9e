import { warmPails } from '../../../src/core/honey/warm-pails';
import { first, held, PAIL_KG, pail } from './pails';

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
