import fc from 'fast-check';
import {
  moistureFromRefractiveIndex,
  refractiveIndexFromMoisture,
} from '../../../src/core/honey/moisture';

const waterAt20C = (refractiveIndex: number) =>
  moistureFromRefractiveIndex({ refractiveIndex, temperatureC: 20 });

describe('water from a refractometer', () => {
  // Chataway 1932 and Wedmore 1955, table at 20 °C in Bogdanov, Book of Honey, ch. 4.
  // The equation misses the printed table by at most 0.022 % water.
  test.each([
    [1.5044, 13.0],
    [1.5018, 14.0],
    [1.4992, 15.0],
    [1.4976, 15.6],
    [1.4966, 16.0],
    [1.4956, 16.4],
    [1.494, 17.0],
    [1.4935, 17.2],
    [1.4925, 17.6],
    [1.4915, 18.0],
    [1.49, 18.6],
    [1.489, 19.0],
    [1.4865, 20.0],
    [1.484, 21.0],
    [1.4815, 22.0],
    [1.479, 23.0],
    [1.4765, 24.0],
    [1.474, 25.0],
  ])('an index of %d at 20 °C is %d %% water, as in the table', (index, waterPercent) => {
    expect(Math.abs(waterAt20C(index) - waterPercent)).toBeLessThan(0.025);
  });

  // Wedmore 1955, equation with the constant −0.2681: derived by hand, to three decimals.
  test.each([
    [1.5044, 12.985],
    [1.4966, 16.002],
    [1.4915, 18.001],
    [1.484, 20.978],
    [1.474, 25.021],
  ])('the equation itself gives %d → %d %% water', (index, waterPercent) => {
    expect(waterAt20C(index)).toBeCloseTo(waterPercent, 3);
  });

  // AOAC 969.38: 0.00023 per °C, added above 20 °C and taken off below.
  test.each([
    [25, 18.14],
    [15, 19.05],
  ])('1.4900 read at %d °C is %d %% water, not 18.59', (temperatureC, waterPercent) => {
    const found = moistureFromRefractiveIndex({ refractiveIndex: 1.49, temperatureC });

    expect(Math.abs(found - waterPercent)).toBeLessThan(0.005);
  });

  // Derived from the same two rules: 0.088 % water per °C at 13 %, 0.091 at 18.6 %, 0.094 at 25 %.
  test.each([
    [1.5044, 20, 0.088],
    [1.49, 20, 0.091],
    [1.4743, 20, 0.094],
  ])('near %d, read at %d °C, one degree is worth %d %% water', (index, from, perC) => {
    const warmer = { refractiveIndex: index - 0.00023, temperatureC: from + 1 };
    const uncorrected = moistureFromRefractiveIndex({ ...warmer, temperatureC: from });

    expect(uncorrected - moistureFromRefractiveIndex(warmer)).toBeCloseTo(perC, 3);
  });

  test('the ends of the table are accepted at any temperature of reading', () => {
    for (let temperatureC = 10; temperatureC <= 40; temperatureC += 1) {
      const shift = 0.00023 * (temperatureC - 20);
      const at = (index: number) => () =>
        moistureFromRefractiveIndex({ refractiveIndex: index - shift, temperatureC });

      expect(at(1.5044 - 2e-7)).not.toThrow();
      expect(at(1.474 + 2e-7)).not.toThrow();
      expect(at(1.5044 + 2e-7)).toThrow(RangeError);
      expect(at(1.474 - 2e-7)).toThrow(RangeError);
    }
  });

  test('an index off the table is refused with the range that works at that temperature', () => {
    expect(() => waterAt20C(1.3333)).toThrow(
      new RangeError('refractiveIndex must be a number from 1.474 to 1.5044; got 1.3333'),
    );
    expect(() => moistureFromRefractiveIndex({ refractiveIndex: 1.52, temperatureC: 30 })).toThrow(
      new RangeError('refractiveIndex must be a number from 1.4717 to 1.5021; got 1.52'),
    );
  });

  test.each([9.99, 40.01, NaN, Infinity])('honey at %d °C is refused', (temperatureC) => {
    expect(() => moistureFromRefractiveIndex({ refractiveIndex: 1.49, temperatureC })).toThrow(
      /temperatureC must be a number from 10 to 40/,
    );
    expect(() => refractiveIndexFromMoisture({ waterPercent: 18, temperatureC })).toThrow(
      /temperatureC must be a number from 10 to 40/,
    );
  });

  test.each([12.9, 25.1, NaN])(
    'a refractometer is not foretold for %d %% water',
    (waterPercent) => {
      expect(() => refractiveIndexFromMoisture({ waterPercent, temperatureC: 20 })).toThrow(
        /waterPercent must be a number from 13 to 25/,
      );
    },
  );

  test('going to the index and back returns the same water', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 13, max: 25, noNaN: true }),
        fc.double({ min: 10, max: 40, noNaN: true }),
        (waterPercent, temperatureC) => {
          const refractiveIndex = refractiveIndexFromMoisture({ waterPercent, temperatureC });

          // 13.0 % lies 0.015 % outside the table's end as the equation sees it, 25 % inside.
          fc.pre(refractiveIndex + 0.00023 * (temperatureC - 20) <= 1.5044);
          const back = moistureFromRefractiveIndex({ refractiveIndex, temperatureC });
          expect(back).toBeCloseTo(waterPercent, 8);
        },
      ),
      { numRuns: 1000 },
    );
  });
});
