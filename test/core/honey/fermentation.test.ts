import fc from 'fast-check';
import {
  FERMENTATION_C,
  fermentationClass,
  fermentationForecast,
  fermentationRisk,
  WATER_ACTIVITY_RISE_ON_SETTING,
} from '../../../src/core/honey/fermentation';

describe('fermentation', () => {
  // Lochhead 1933, Zbl. Bakt. II 88, 296–302. 17.05 and the like lie between the printed bands:
  // put into the stricter, but for 17.05, which is below 17.1.
  test.each([
    [17.0, 'any'],
    [17.05, 'any'],
    [17.1, 1000],
    [17.5, 1000],
    [18.0, 1000],
    [18.05, 10],
    [18.5, 10],
    [19.0, 10],
    [19.05, 1],
    [19.5, 1],
    [20.0, 1],
    [20.05, 'none'],
    [20.5, 'none'],
  ])('honey of %d %% water is safe below this count of yeasts per gram: %s', (water, count) => {
    const expected =
      count === 'any'
        ? { kind: 'safe' }
        : count === 'none'
          ? { kind: 'always-in-danger' }
          : { kind: 'safe-below-count', yeastPerG: count };

    expect(fermentationClass(water)).toEqual(expected);
  });

  test('a count decides within the bands, and without one the answer stays open', () => {
    expect(fermentationRisk({ waterPercent: 17 })).toBe('safe');
    expect(fermentationRisk({ waterPercent: 17, yeastPerG: 1e6 })).toBe('safe');
    expect(fermentationRisk({ waterPercent: 17.5 })).toBe('count-unknown');
    expect(fermentationRisk({ waterPercent: 17.5, yeastPerG: 999 })).toBe('safe');
    expect(fermentationRisk({ waterPercent: 17.5, yeastPerG: 1000 })).toBe('in-danger');
    expect(fermentationRisk({ waterPercent: 19.5, yeastPerG: 0 })).toBe('safe');
    expect(fermentationRisk({ waterPercent: 20.5, yeastPerG: 0 })).toBe('in-danger');
    expect(fermentationRisk({ waterPercent: 20.5 })).toBe('in-danger');
  });

  // Mass balance (derived): 18 % with 15 g of crystals leaves a liquid of 19.57 %.
  test('honey of 18 % that keeps while liquid is in danger once set, and that is said before', () => {
    const forecast = fermentationForecast({ waterPercent: 18, crystalPercent: 15, yeastPerG: 100 });

    expect(forecast).toMatchObject({
      before: 'safe',
      afterSetting: 'in-danger',
      worsensOnSetting: true,
    });
    expect(forecast.liquidWaterPercent).toBeCloseTo(19.57, 2);
  });

  test('a class that stays is no warning', () => {
    expect(fermentationForecast({ waterPercent: 15, crystalPercent: 10 })).toMatchObject({
      before: 'safe',
      afterSetting: 'safe',
      worsensOnSetting: false,
    });
    expect(fermentationForecast({ waterPercent: 17.5, crystalPercent: 5 }).worsensOnSetting).toBe(
      false,
    );
    expect(fermentationForecast({ waterPercent: 16.9, crystalPercent: 10 })).toMatchObject({
      before: 'safe',
      afterSetting: 'count-unknown',
      worsensOnSetting: true,
    });
  });

  test('more water or more yeast never makes honey safer', () => {
    const rank = ['safe', 'count-unknown', 'in-danger'];
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 29, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 5000, noNaN: true }),
        (waterPercent, more, yeastPerG) => {
          const usual = rank.indexOf(fermentationRisk({ waterPercent, yeastPerG }));
          const wetter = fermentationRisk({ waterPercent: waterPercent + more, yeastPerG });
          const yeastier = fermentationRisk({ waterPercent, yeastPerG: yeastPerG * 2 });

          expect(rank.indexOf(wetter)).toBeGreaterThanOrEqual(usual);
          expect(rank.indexOf(yeastier)).toBeGreaterThanOrEqual(usual);
        },
      ),
      { numRuns: 1000 },
    );
  });

  // Shafiq et al. 2014; Venir, Spaziani & Maltini 2010. Honey handbooks: 11 and 27 °C.
  test('setting raises water activity by 0.03 to 0.04, up to 0.065; yeasts grow from 11 to 27 °C', () => {
    expect(WATER_ACTIVITY_RISE_ON_SETTING).toEqual({ from: 0.03, to: 0.04, highest: 0.065 });
    expect(FERMENTATION_C).toEqual({ aboveC: 11, upToC: 27 });
  });

  test.each([9.9, 30.1, NaN])('%d %% water is not judged', (waterPercent) => {
    expect(() => fermentationClass(waterPercent)).toThrow(
      /waterPercent must be a number from 10 to 30/,
    );
  });

  test('a count below nothing is refused', () => {
    expect(() => fermentationRisk({ waterPercent: 18, yeastPerG: -1 })).toThrow(
      /yeastPerG must be a number from 0 upwards/,
    );
  });
});
