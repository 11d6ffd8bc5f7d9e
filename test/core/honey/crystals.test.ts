import fc from 'fast-check';
import {
  CRYSTAL_WATER_PERCENT,
  liquidPhaseWaterPercent,
  meltedFraction,
  MELTING_ENTHALPY_J_PER_KG,
  MELTING_RANGE_BY_GRAIN,
  meltingHeatJPerKg,
} from '../../../src/core/honey/crystals';

describe('crystals', () => {
  // Venir, Spaziani & Maltini 2010: 108.39 ± 6.16 J/g.
  test('melting a gram of honey crystals takes 108.4 J', () => {
    expect(MELTING_ENTHALPY_J_PER_KG / 1000).toBeCloseTo(108.39, 2);
  });

  // Derived: 15 g per 100 g costs 16.3 kJ/kg of honey, 407 kJ in a 25 kg pail.
  test('a set honey with 15 g of crystals per 100 g takes 16.3 kJ/kg to melt', () => {
    expect(meltingHeatJPerKg(15) / 1000).toBeCloseTo(16.3, 1);
    expect((25 * meltingHeatJPerKg(15)) / 1000).toBeCloseTo(406.5, 0);
    expect(meltingHeatJPerKg(0)).toBe(0);
  });

  // Chemistry: 18.015 / 198.17, glucose monohydrate.
  test('glucose monohydrate carries 9.09 % water', () => {
    expect(CRYSTAL_WATER_PERCENT).toBeCloseTo(9.09, 2);
  });

  // Mass balance, derived.
  test.each([
    [17, 10, 17.88],
    [17, 15, 18.4],
    [18, 10, 18.99],
    [18, 15, 19.57],
    [18, 20, 20.23],
    [19, 15, 20.75],
  ])('at %d %% water with %d g of crystals the liquid holds %d %%', (water, crystals, liquid) => {
    const found = liquidPhaseWaterPercent({ waterPercent: water, crystalPercent: crystals });

    expect(found).toBeCloseTo(liquid, 2);
  });

  test('the water in crystals and liquid adds up to the water of the honey', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 25, noNaN: true }),
        (waterPercent, crystalPercent) => {
          const liquid = liquidPhaseWaterPercent({ waterPercent, crystalPercent });
          const total = liquid * (100 - crystalPercent) + crystalPercent * CRYSTAL_WATER_PERCENT;

          expect(total / 100).toBeCloseTo(waterPercent, 9);
          expect(liquid).toBeGreaterThanOrEqual(waterPercent);
        },
      ),
      { numRuns: 1000 },
    );
  });

  test('what the balance cannot be drawn for is refused', () => {
    const of = (waterPercent: number, crystalPercent: number) => () =>
      liquidPhaseWaterPercent({ waterPercent, crystalPercent });

    expect(of(9.9, 10)).toThrow(/waterPercent must be a number from 10 to 30/);
    expect(of(30.1, 10)).toThrow(/waterPercent must be a number from 10 to 30/);
    expect(of(18, -0.1)).toThrow(/crystalPercent must be a number from 0 to 25/);
    expect(of(18, 25.1)).toThrow(/crystalPercent must be a number from 0 to 25/);
    expect(() => meltingHeatJPerKg(25.1)).toThrow(/crystalPercent must be a number from 0 to 25/);
    expect(() => meltingHeatJPerKg(-1)).toThrow(/crystalPercent must be a number from 0 to 25/);
  });

  // Lupano 1997: coarse crystals grown at 20 °C melt at 45 to 65 °C, fine ones at 25 to 45 °C.
  test('fine crystals melt from 25 to 45 °C, coarse ones from 45 to 65 °C', () => {
    const { fine, coarse } = MELTING_RANGE_BY_GRAIN;

    expect([24, 25, 35, 45, 46].map((t) => meltedFraction(t, fine))).toEqual([0, 0, 0.5, 1, 1]);
    expect([44, 45, 55, 65, 66].map((t) => meltedFraction(t, coarse))).toEqual([0, 0, 0.5, 1, 1]);
  });

  test('a melting range that does not rise, or no temperature, is refused', () => {
    const flat = { meltingFromC: 40, meltingToC: 40 };

    expect(() => meltedFraction(40, flat)).toThrow(
      /meltingToC must be a number from 40.01 upwards/,
    );
    expect(() => meltedFraction(NaN, MELTING_RANGE_BY_GRAIN.fine)).toThrow(RangeError);
  });
});
