import fc from 'fast-check';
import { conductivityWPerMK } from '../../../src/core/honey/conductivity';
import { densityAt20CKgPerM3, specificGravityAt20C } from '../../../src/core/honey/density';
import { honeyHeat } from '../../../src/core/honey/honey-heat';
import { specificHeatJPerKgK } from '../../../src/core/honey/specific-heat';
import { viscosityPaS } from '../../../src/core/honey/viscosity';

const percent = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('density', () => {
  // White, USDA and Bogdanov table, 20/20 °C. 18 % and (to three decimals) 17 % were read in copies;
  // the others are from memory, high.
  test.each([
    [13, 1.4457, 1443],
    [14, 1.4404, 1438],
    [15, 1.435, 1432],
    [16, 1.4295, 1427],
    [17, 1.4237, 1421],
    [18, 1.4171, 1415],
    [18.6, 1.4129, 1410],
    [19, 1.4101, 1408],
    [20, 1.4027, 1400],
    [21, 1.395, 1393],
  ])('honey of %d %% water has a specific gravity of %d, %d kg/m³', (water, gravity, density) => {
    expect(specificGravityAt20C(water)).toBeCloseTo(gravity, 6);
    expect(Math.abs(densityAt20CKgPerM3(water) - density)).toBeLessThan(0.61);
  });

  // The copied pair "15 % 1.423, 18 % 1.417" contradicts itself: 1.423 belongs to about 17 %.
  test('1.423 is the specific gravity of 17 %, not of 15 %', () => {
    expect(Math.abs(specificGravityAt20C(17) - 1.423)).toBeLessThan(0.001);
    expect(specificGravityAt20C(15)).toBeGreaterThan(1.43);
  });

  test('wetter honey is always lighter', () => {
    fc.assert(
      fc.property(percent(13, 20.9), percent(0.001, 0.1), (water, more) => {
        expect(densityAt20CKgPerM3(water + more)).toBeLessThan(densityAt20CKgPerM3(water));
      }),
      { numRuns: 1000 },
    );
  });

  test.each([12.99, 21.01, NaN])('no density is given for %d %% water', (water) => {
    const range = /waterPercent must be a number from 13 to 21/;

    expect(() => densityAt20CKgPerM3(water)).toThrow(RangeError);
    expect(() => specificGravityAt20C(water)).toThrow(range);
    expect(() => specificHeatJPerKgK(water)).toThrow(range);
  });
});

describe('specific heat', () => {
  // Helvey 1954: 0.54 cal/g·°C at 17.4 % water and 20 °C.
  test('honey of 17.4 % water takes 2260 J to warm a kilogram by a degree', () => {
    expect(specificHeatJPerKgK(17.4)).toBeCloseTo(2260, 6);
  });

  // Honey literature: 0.54 to 0.60 cal/g·°C (2.26 to 2.51 kJ/kg·K), more with more water.
  test('from 17.4 to 21 % water it stays in the published band and rises', () => {
    const values = [17.4, 18, 19, 20, 21].map(specificHeatJPerKgK);

    expect(values).toEqual([...values].sort((a, b) => a - b));
    expect(values.at(-1)).toBeGreaterThan(2300);
    expect(values.at(-1)).toBeLessThan(2510);
  });

  // Independent: one per cent more water swaps 10 g of dry matter (1855 J/kg·K, from Helvey's value
  // and 4182 for water) for 10 g of water: 23.3 J/kg·K.
  test('one per cent more water adds 23 J/kg·K', () => {
    expect(specificHeatJPerKgK(18.4) - specificHeatJPerKgK(17.4)).toBeCloseTo(23.27, 2);
  });
});

describe('conductivity', () => {
  // Helvey 1954 and Detroy: 0.536 W/m·K at 21 °C and 0.595 at 71 °C, 17 % water.
  test.each([
    [21, 0.536],
    [71, 0.595],
  ])('honey of 17 %% water at %d °C conducts %d W/m·K', (temperatureC, expected) => {
    const found = conductivityWPerMK({ waterPercent: 17, temperatureC });

    expect(Math.abs(found - expected)).toBeLessThan(0.0015);
  });

  // The same table in 1e-5 cal/cm·s·°C, from memory (high); 1 cal/cm·s·°C is 418.4 W/m·K.
  test.each([
    [21, [118, 125, 132, 138]],
    [19, [120, 126, 134, 140]],
    [17, [121, 128, 136, 142]],
    [15, [123, 129, 137, 143]],
  ])('the table row of %d %% water is reproduced', (waterPercent, row) => {
    const found = [2, 21, 49, 71].map((temperatureC) =>
      conductivityWPerMK({ waterPercent, temperatureC }),
    );

    found.forEach((value, column) => {
      expect(value / 418.4e-5).toBeCloseTo(row[column]!, 8);
    });
  });

  // Honey literature: 0.5375 W/m·K at 21 % and 0.5547 at 15 % water (temperature not stated).
  test('drier honey conducts slightly better', () => {
    const wet = conductivityWPerMK({ waterPercent: 21, temperatureC: 36 });
    const dry = conductivityWPerMK({ waterPercent: 15, temperatureC: 36 });

    expect(Math.abs(wet - 0.5375)).toBeLessThan(0.01);
    expect(Math.abs(dry - 0.5547)).toBeLessThan(0.01);
  });

  // Derived: 0.5356 / (1421 · 2259) is 1.67e-7 m²/s.
  test('heat spreads through honey of 17 % water at 1.67e-7 m²/s', () => {
    const conductivity = conductivityWPerMK({ waterPercent: 17, temperatureC: 21 });
    const spread = conductivity / (densityAt20CKgPerM3(17) * specificHeatJPerKgK(17.4));

    expect(spread * 1e7).toBeCloseTo(1.67, 2);
  });

  test('warmer honey conducts better, wetter honey worse', () => {
    fc.assert(
      fc.property(percent(15, 20.9), percent(2, 70), (waterPercent, temperatureC) => {
        const here = conductivityWPerMK({ waterPercent, temperatureC });

        expect(
          conductivityWPerMK({ waterPercent, temperatureC: temperatureC + 1 }),
        ).toBeGreaterThan(here);
        expect(conductivityWPerMK({ waterPercent: waterPercent + 0.1, temperatureC })).toBeLessThan(
          here,
        );
      }),
      { numRuns: 1000 },
    );
  });

  test('no conductivity is given off the table', () => {
    const at = (waterPercent: number, temperatureC: number) => () =>
      conductivityWPerMK({ waterPercent, temperatureC });

    expect(at(14.9, 21)).toThrow(/waterPercent must be a number from 15 to 21/);
    expect(at(21.1, 21)).toThrow(/waterPercent must be a number from 15 to 21/);
    expect(at(17, 1.9)).toThrow(/temperatureC must be a number from 2 to 71/);
    expect(at(17, 71.1)).toThrow(/temperatureC must be a number from 2 to 71/);
  });
});

describe('viscosity', () => {
  // Munro 1943, clover honey of 16 % water, in Pa·s.
  test.each([
    [14, 60],
    [20, 19],
    [25, 9],
    [30, 6.5],
    [40, 2],
    [50, 1],
    [70, 0.3],
  ])('honey of 16 %% water at %d °C has %d Pa·s', (temperatureC, expected) => {
    expect(viscosityPaS({ waterPercent: 16, temperatureC })).toBeCloseTo(expected, 6);
  });

  // Munro 1943, unrounded points, poise, from memory (high); the rounded ones differ by up to 15 %.
  test.each([
    [20.6, 189.6],
    [29, 68.4],
    [39.4, 21.4],
    [48.1, 10.7],
  ])('at %d °C it lies near the unrounded %d poise', (temperatureC, poise) => {
    const found = viscosityPaS({ waterPercent: 16, temperatureC }) * 10;

    expect(Math.abs(found / poise - 1)).toBeLessThan(0.16);
  });

  // Munro 1943 at 25 °C, poise: 13.7 % 420 read, the others from memory (high). As ratios, because
  // the two series differ by a fifth where they meet.
  test.each([
    [14.2, 269],
    [15.5, 138],
    [17.1, 69],
    [18.2, 48.1],
    [19.1, 34.9],
    [20.2, 20.4],
    [21.5, 13.6],
  ])('against 13.7 %% water, %d %% thins honey from 420 to %d poise', (waterPercent, poise) => {
    const found = viscosityPaS({ waterPercent, temperatureC: 25 });
    const thickest = viscosityPaS({ waterPercent: 13.7, temperatureC: 25 });

    expect(found / thickest).toBeCloseTo(poise / 420, 8);
  });

  // Honey literature: about four times as thick at 20 °C as at 32 °C.
  test('honey at 20 °C is about four times as thick as at 32 °C', () => {
    const ratio =
      viscosityPaS({ waterPercent: 16, temperatureC: 20 }) /
      viscosityPaS({ waterPercent: 16, temperatureC: 32 });

    expect(Math.abs(ratio - 4)).toBeLessThan(0.5);
  });

  test('warmer and wetter honey is always thinner', () => {
    fc.assert(
      fc.property(percent(13.7, 21), percent(14, 69), (waterPercent, temperatureC) => {
        const here = viscosityPaS({ waterPercent, temperatureC });

        expect(viscosityPaS({ waterPercent, temperatureC: temperatureC + 1 })).toBeLessThan(here);
        expect(viscosityPaS({ waterPercent: waterPercent + 0.5, temperatureC })).toBeLessThan(here);
      }),
      { numRuns: 1000 },
    );
  });

  test('no viscosity is given outside the published points', () => {
    const of = (waterPercent: number, temperatureC: number) => () =>
      viscosityPaS({ waterPercent, temperatureC });

    expect(of(13.6, 25)).toThrow(/waterPercent must be a number from 13.7 to 21.5/);
    expect(of(21.6, 25)).toThrow(/waterPercent must be a number from 13.7 to 21.5/);
    expect(of(16, 13.9)).toThrow(/temperatureC must be a number from 14 to 70/);
    expect(of(16, 70.1)).toThrow(/temperatureC must be a number from 14 to 70/);
  });
});

describe('what warming needs to know of a honey', () => {
  const fine = { meltingFromC: 25, meltingToC: 45 };

  // By hand from the tables above: at 17.4 % and 30 °C 130.17e-5 cal/cm·s·°C; 1.42106 · 998.2 kg/m³;
  // Helvey's 2260 J/kg·K; 15 g of crystals at 108.39 J/g.
  test('is gathered from its water and its crystals', () => {
    const found = honeyHeat({ waterPercent: 17.4, crystalPercent: 15, ...fine });

    expect(found.conductivityWPerMK).toBeCloseTo(130.171 * 418.4e-5, 5);
    expect(found.densityKgPerM3).toBeCloseTo(1418.5, 1);
    expect(found.specificHeatJPerKgK).toBeCloseTo(2260, 6);
    expect(found.meltingHeatJPerKg).toBeCloseTo(16_258.5, 6);
    expect(found).toMatchObject(fine);
  });

  test('is not guessed outside the tables', () => {
    expect(() => honeyHeat({ waterPercent: 14.9, crystalPercent: 15, ...fine })).toThrow(
      /waterPercent must be a number from 15 to 21/,
    );
    expect(() =>
      honeyHeat({ waterPercent: 17, crystalPercent: 15, meltingFromC: 45, meltingToC: 25 }),
    ).toThrow(/meltingToC must be a number from 45.01 to 100/);
  });
});
