import fc from 'fast-check';
import { blendSeed, SEEDING_C, type SeedPart } from '../../../src/core/honey/seed-blend';
import { grainForecast } from '../../../src/core/honey/seed-grain';

const mass = fc.double({ min: 1, max: 500_000, noNaN: true });

describe('stirring the seed in', () => {
  const honey = { massG: 25_000, temperatureC: 30, waterPercent: 17, specificHeatJPerKgK: 2260 };
  const seed: SeedPart = {
    massG: 2500,
    temperatureC: 18,
    waterPercent: 18.1,
    specificHeatJPerKgK: 2260,
    crystalPercent: 15,
    meltingFromC: 35,
    meltingToC: 45,
  };

  // By hand: (25·30 + 2.5·18) / 27.5 and (25·17 + 2.5·18.1) / 27.5.
  test('cool seed cools the blend and mixes its water in', () => {
    const blend = blendSeed(honey, seed);

    expect(blend.massG).toBe(27_500);
    expect(blend.temperatureC).toBeCloseTo(28.909, 3);
    expect(blend.waterPercent).toBeCloseTo(17.1, 9);
    expect(blend.seedMelted).toBe(0);
    expect(blend.meltsOnContact).toBe(false);
    expect(blend.tooWarm).toBe(true);
    expect(blend.warmish).toBe(false);
  });

  // By hand: parts of 2 kg and 1 kg with 2000 and 4000 J/kg·K count alike.
  test('heat counts, not mass alone', () => {
    const blend = blendSeed(
      { ...honey, massG: 2000, specificHeatJPerKgK: 2000, temperatureC: 20 },
      { ...seed, massG: 1000, specificHeatJPerKgK: 4000, temperatureC: 10 },
    );

    expect(blend.temperatureC).toBeCloseTo(15, 9);
  });

  // By hand: 42 °C into seed at 20 °C would give 40 °C; the melting of part f = (T − 35)/10 of
  // 2.5 kg · 0.15 · 108,390 J/kg takes the rest: 62,150·(40 − T) = 40,646·(T − 35)/10.
  test('seed stirred into honey that is too warm melts, and that cools the blend a little', () => {
    const blend = blendSeed({ ...honey, temperatureC: 42 }, { ...seed, temperatureC: 20 });

    const expectedC = (62_150 * 40 + 4064.625 * 35) / (62_150 + 4064.625);
    expect(blend.temperatureC).toBeCloseTo(expectedC, 6);
    expect(blend.seedMelted).toBeCloseTo((expectedC - 35) / 10, 6);
    expect(blend.meltsOnContact).toBe(true);
  });

  test('what had melted while the seed was softened does not melt again', () => {
    const soft = blendSeed(
      { ...honey, temperatureC: 40 },
      { ...seed, temperatureC: 38, meltingFromC: 35 },
    );

    expect(soft.seedMelted).toBeLessThan(0.2);
    const warmSeed = blendSeed({ ...honey, temperatureC: 20 }, { ...seed, temperatureC: 38 });
    expect(warmSeed.seedMelted).toBe(0);
  });

  // FAO Bulletin 124: the mix at 24 to 28 °C, so that no crystal melts; others 24 °C before seeding.
  test('up to 24 °C is cautious, up to 28 °C within recipes, above it too warm', () => {
    const at = (temperatureC: number) => {
      const { warmish, tooWarm } = blendSeed({ ...honey, temperatureC }, { ...seed, temperatureC });
      return { warmish, tooWarm };
    };

    expect(SEEDING_C).toEqual({ cautious: 24, warmest: 28 });
    expect(at(23.9)).toEqual({ warmish: false, tooWarm: false });
    expect(at(24.1)).toEqual({ warmish: true, tooWarm: false });
    expect(at(27.9)).toEqual({ warmish: true, tooWarm: false });
    expect(at(28.1)).toEqual({ warmish: false, tooWarm: true });
  });

  test('honey exactly as warm as the first crystal melts does not melt on contact', () => {
    expect(blendSeed({ ...honey, temperatureC: 35 }, seed).meltsOnContact).toBe(false);
  });

  test('mass and water are kept exactly, heat too, and the blend lies between its parts', () => {
    const part = fc.double({ min: 5, max: 60, noNaN: true });
    fc.assert(
      fc.property(mass, mass, part, part, (honeyG, seedG, honeyC, seedC) => {
        const parts = [
          { ...honey, massG: honeyG, temperatureC: honeyC },
          { ...seed, massG: seedG, temperatureC: seedC },
        ] as const;
        const blend = blendSeed(...parts);

        expect(blend.massG).toBe(honeyG + seedG);
        const waterG = (blend.waterPercent * blend.massG) / 100;
        expect(waterG / ((honeyG * 17 + seedG * 18.1) / 100)).toBeCloseTo(1, 12);
        const given = (honeyG * 2260 * (honeyC - blend.temperatureC)) / 1000;
        const taken = (seedG * 2260 * (blend.temperatureC - seedC)) / 1000;
        const melted = (seedG * 0.15 * 108_390 * blend.seedMelted) / 1000;
        expect(Math.abs(given - taken - melted)).toBeLessThan(1e-6 * (honeyG + seedG) + 1e-6);
        expect(blend.temperatureC).toBeGreaterThanOrEqual(Math.min(honeyC, seedC) - 1e-9);
        expect(blend.temperatureC).toBeLessThanOrEqual(Math.max(honeyC, seedC) + 1e-9);
      }),
      { numRuns: 1000 },
    );
  });

  test('parts without sense are refused', () => {
    expect(() => blendSeed({ ...honey, massG: 0 }, seed)).toThrow(/massG must be a number above 0/);
    expect(() => blendSeed(honey, { ...seed, massG: -1 })).toThrow(/massG must be/);
    expect(() => blendSeed({ ...honey, temperatureC: 81 }, seed)).toThrow(/from -20 to 80/);
    expect(() => blendSeed({ ...honey, waterPercent: 12 }, seed)).toThrow(/from 13 to 25/);
    expect(() => blendSeed({ ...honey, specificHeatJPerKgK: 0 }, seed)).toThrow(/above 0/);
    expect(() => blendSeed(honey, { ...seed, crystalPercent: 26 })).toThrow(/from 0 to 25/);
  });
});

describe('grain', () => {
  // Common practice, no source: grain follows the seed.
  test('coarse seed spoils fine honey; fine seed helps coarse honey', () => {
    expect(grainForecast('coarse', 'fine')).toEqual({ expected: 'coarse', seedTooCoarse: true });
    expect(grainForecast('medium', 'fine')).toEqual({ expected: 'medium', seedTooCoarse: true });
    expect(grainForecast('coarse', 'medium')).toEqual({ expected: 'coarse', seedTooCoarse: true });
    expect(grainForecast('fine', 'coarse')).toEqual({ expected: 'fine', seedTooCoarse: false });
    expect(grainForecast('fine', 'fine')).toEqual({ expected: 'fine', seedTooCoarse: false });
    expect(grainForecast('coarse', 'coarse').seedTooCoarse).toBe(false);
  });
});
