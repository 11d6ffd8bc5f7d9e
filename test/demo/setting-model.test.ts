import { coolRoomC, medianSettingDays, settingDays } from '../../demo/setting-model';

const lime = [{ source: 'lime' as const, fraction: 1 }];
const usual = { honey: lime, temperatureC: 14, seedPercent: 10 };

describe('the invented setting model', () => {
  test('sets fastest at 14 °C and slower on both sides', () => {
    // The shape, not the numbers: E. J. Dyce found 57 °F (14 °C) best for setting creamed honey.
    const days = [8, 10, 12, 14, 16, 18, 20].map((temperatureC) =>
      medianSettingDays({ ...usual, temperatureC }),
    );

    expect(Math.min(...days)).toBe(days[3]);
    expect(days.slice(0, 4)).toEqual([...days.slice(0, 4)].sort((a, b) => b - a));
    expect(days.slice(3)).toEqual([...days.slice(3)].sort((a, b) => a - b));
  });

  test('sets rape before lime before heather, and faster with more seed', () => {
    const median = (source: 'oilseed rape' | 'lime' | 'heather', seedPercent = 10) =>
      medianSettingDays({ ...usual, honey: [{ source, fraction: 1 }], seedPercent });

    expect(median('oilseed rape')).toBeLessThan(median('lime'));
    expect(median('lime')).toBeLessThan(median('heather'));
    expect(median('lime', 14)).toBeLessThan(median('lime', 6));
  });

  test('gives a mixture a pace between those of its parts', () => {
    const mixed = medianSettingDays({
      ...usual,
      honey: [
        { source: 'oilseed rape', fraction: 0.5 },
        { source: 'lime', fraction: 0.5 },
      ],
    });

    // √(5 · 16), by hand.
    expect(mixed).toBeCloseTo(8.944, 3);
  });

  test('has half of all batches set by the median, and the log-logistic quarter and three quarters', () => {
    expect(settingDays(16, 0.5)).toBe(16);
    // 16 · 3^(1/6) and 16 / 3^(1/6), by hand.
    expect(settingDays(16, 0.75)).toBeCloseTo(19.215, 3);
    expect(settingDays(16, 0.25)).toBeCloseTo(13.323, 3);
  });

  test('keeps the cool room coolest in January and warmest in July', () => {
    expect(coolRoomC(new Date('2026-01-15T00:00:00Z'))).toBeCloseTo(10.8, 1);
    expect(coolRoomC(new Date('2026-07-16T00:00:00Z'))).toBeCloseTo(15.2, 1);
  });

  test.each([NaN, Infinity, -31, 61])('refuses %d °C', (temperatureC) => {
    expect(() => medianSettingDays({ ...usual, temperatureC })).toThrow(/temperatureC/);
  });

  test.each([NaN, 0, -1])('refuses %d %% of seed', (seedPercent) => {
    expect(() => medianSettingDays({ ...usual, seedPercent })).toThrow(/seedPercent/);
  });

  test.each([NaN, 0, 1])('refuses a luck of %d', (luck) => {
    expect(() => settingDays(16, luck)).toThrow(/luck/);
  });
});
