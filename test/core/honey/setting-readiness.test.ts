import fc from 'fast-check';
import { FLORAL_DEFAULTS } from '../../../src/core/honey/floral-defaults';
import { settingForecast } from '../../../src/core/honey/setting-readiness';

const forecast = (glucosePercent: number, waterPercent: number, fructosePercent = 38) =>
  settingForecast({ glucosePercent, fructosePercent, waterPercent });

describe('whether a honey sets', () => {
  // Thresholds of White et al. 1962 and Manikis & Thrasyvoulou 2001: G/W 1.70 and 2.1.
  test.each([
    [34, 17, 2.0, 'medium'],
    [36, 16, 2.25, 'fast'],
    [26, 17, 1.53, 'slow'],
    [30.6, 18, 1.7, 'medium'],
    [30.5, 18, 1.694, 'slow'],
    [37.8, 18, 2.1, 'medium'],
    [38, 18, 2.111, 'fast'],
  ])('glucose %d %% and water %d %% are %d, %s', (glucose, water, ratio, readiness) => {
    const found = forecast(glucose, water);

    expect(Math.abs(found.glucoseToWater - ratio)).toBeLessThan(0.01);
    expect(found.readiness).toBe(readiness);
  });

  // Manikis & Thrasyvoulou 2001, Table 3 (truncated, with slips of up to 0.03 in print), 14 to 21 %.
  test.each([
    [23, [1.64, 1.53, 1.43, 1.35, 1.27, 1.21, 1.15, 1.09]],
    [30, [2.14, 2.0, 1.87, 1.76, 1.66, 1.57, 1.5, 1.42]],
    [34, [2.42, 2.26, 2.12, 2.0, 1.89, 1.78, 1.7, 1.61]],
    [40, [2.85, 2.66, 2.5, 2.35, 2.22, 2.1, 2.0, 1.9]],
  ])('the printed row of glucose over water for %d %% glucose is met', (glucose, row) => {
    row.forEach((printed, column) => {
      const found = forecast(glucose, 14 + column).glucoseToWater;
      expect(Math.abs(found - printed)).toBeLessThan(0.05);
    });
  });

  // Manikis & Thrasyvoulou 2001: glucose below 29 % slow, 29 to 35 % medium, above 35 % fast.
  test.each([
    [28.9, 'slow'],
    [29, 'medium'],
    [35, 'medium'],
    [35.1, 'fast'],
  ])('%d %% glucose alone speaks for %s', (glucose, readiness) => {
    expect(forecast(glucose, 17).byGlucose).toBe(readiness);
  });

  // From memory (medium): fructose over glucose below 1.11 fast, above 1.33 slow.
  test.each([
    [36, 1.1, 'fast'],
    [36, 1.12, undefined],
    [30, 1.32, undefined],
    [30, 1.34, 'slow'],
  ])('with glucose %d %%, fructose %d times that speaks for %s', (glucose, ratio, readiness) => {
    const found = forecast(glucose, 17, glucose * ratio);

    expect(found.fructoseToGlucose).toBeCloseTo(ratio, 12);
    expect(found.byFructoseToGlucose).toBe(readiness);
  });

  // Published: (G − W)/F above 0.42 will set; G/W above 2.1 sets; below 1.7 stays liquid long.
  test('surplus glucose above 0.42, or glucose over water above 2.1, will set', () => {
    expect(forecast(34, 17, 40).surplusGlucose).toBeCloseTo(0.425, 12);
    expect(forecast(34, 17, 40).willSet).toBe('yes');
    expect(forecast(34, 17, 41).willSet).toBe('in time');
    expect(forecast(36, 16, 50).willSet).toBe('yes');
    expect(forecast(26, 17).willSet).toBe('doubtful');
  });

  test('measures that contradict each other are told apart from those that merely hesitate', () => {
    // White et al. 1962: sage-like, G/W medium, glucose slow.
    expect(forecast(28.19, 16, 40.39).measuresDisagree).toBe(false);
    expect(forecast(36, 21.5, 38).measuresDisagree).toBe(true);
    expect(forecast(34, 16, 46).measuresDisagree).toBe(true);
    expect(forecast(36, 16, 38).measuresDisagree).toBe(false);
  });

  test('more glucose or less water never sets more slowly', () => {
    const rank = ['slow', 'medium', 'fast'];
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 45, noNaN: true }),
        fc.double({ min: 14, max: 22, noNaN: true }),
        (glucose, water) => {
          const usual = rank.indexOf(forecast(glucose, water).readiness);

          expect(rank.indexOf(forecast(glucose + 1, water).readiness)).toBeGreaterThanOrEqual(
            usual,
          );
          expect(rank.indexOf(forecast(glucose, water - 1).readiness)).toBeGreaterThanOrEqual(
            usual,
          );
        },
      ),
      { numRuns: 1000 },
    );
  });

  test('compositions no honey has are refused', () => {
    expect(() => forecast(9, 17)).toThrow(/glucosePercent must be a number from 10 to 60/);
    expect(() => forecast(61, 17)).toThrow(/glucosePercent must be a number from 10 to 60/);
    expect(() => forecast(30, 9)).toThrow(/waterPercent must be a number from 10 to 30/);
    expect(() => forecast(30, 31)).toThrow(/waterPercent must be a number from 10 to 30/);
    expect(() => forecast(30, 17, 14)).toThrow(/fructosePercent must be a number from 15 to 60/);
    expect(() => forecast(30, 17, 61)).toThrow(/fructosePercent must be a number from 15 to 60/);
  });
});

describe('floral defaults', () => {
  const of = (plant: string) => FLORAL_DEFAULTS.find((entry) => entry.plant.startsWith(plant))!;

  // White et al. 1962: fructose 38.2, glucose 31.3, water 17.2 (490 samples), read to one decimal.
  test('any honey has the mean of 490 samples', () => {
    expect(of('any honey')).toMatchObject({
      fructosePercent: 38.2,
      glucosePercent: 31.3,
      waterPercent: 17.2,
      status: 'read in a copy',
    });
  });

  // Persano Oddo & Piro 2004, from memory (medium): G/W and F/G derived from the means.
  test.each([
    ['rape', 2.4, 0.95],
    ['dandelion', 2.2, 0.98],
    ['sunflower', 2.1, 1.05],
    ['eucalyptus', 2.06, 1.18],
    ['ling heather', 1.72, 1.26],
    ['lime', 1.89, 1.18],
    ['citrus', 1.89, 1.23],
    ['lavender', 1.83, 1.18],
    ['thyme', 1.91, 1.38],
    ['rhododendron', 1.83, 1.29],
    ['chestnut', 1.59, 1.46],
    ['false acacia', 1.55, 1.61],
    ['honeydew', 1.63, 1.24],
    ['honeydew (Metcalfa)', 1.48, 1.32],
  ])('%s has glucose over water %d and fructose over glucose %d', (plant, toWater, toGlucose) => {
    const found = settingForecast(of(plant));

    expect(Math.abs(found.glucoseToWater - toWater)).toBeLessThan(0.01);
    expect(Math.abs(found.fructoseToGlucose - toGlucose)).toBeLessThan(0.01);
  });

  // Escuredo et al. 2014: F/G of chestnut, acacia above 1.4; sunflower, rape, lime lower. Rape holds
  // more glucose than fructose; acacia the most fructose (direction read in copies).
  test('the published directions hold', () => {
    expect(settingForecast(of('rape')).willSet).toBe('yes');
    expect(settingForecast(of('false acacia')).willSet).toBe('doubtful');
    expect(of('rape').glucosePercent).toBeGreaterThan(of('rape').fructosePercent);
    const most = Math.max(...FLORAL_DEFAULTS.map(({ fructosePercent }) => fructosePercent));
    expect(of('false acacia').fructosePercent).toBe(most);
  });

  test('every default names its source and how far it may be trusted, no plant twice', () => {
    for (const { source, status } of FLORAL_DEFAULTS) {
      expect(source).toMatch(/\d{4}/);
      expect(['read in a copy', 'from memory, medium']).toContain(status);
    }
    const remembered = FLORAL_DEFAULTS.filter(({ status }) => status === 'from memory, medium');
    expect(remembered).toHaveLength(14);
    expect(new Set(FLORAL_DEFAULTS.map(({ plant }) => plant)).size).toBe(15);
  });
});
