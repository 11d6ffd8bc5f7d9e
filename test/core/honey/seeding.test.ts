import fc from 'fast-check';
import { blendSeed, SEEDING_C, type SeedPart } from '../../../src/core/honey/seed-blend';
import { seedBuildUp, type BuildUpQuestion } from '../../../src/core/honey/seed-build-up';
import { grainForecast } from '../../../src/core/honey/seed-grain';
import {
  seedForBlendShare,
  seedPerHoney,
  seedShares,
  splitBlend,
} from '../../../src/core/honey/seed-mass';

const mass = fc.double({ min: 1, max: 500_000, noNaN: true });

describe('how much seed', () => {
  // Common practice, no source: 2.5 kg into 25 kg, 10 per 100 of honey, 9.1 % of the blend.
  test('2.5 kg into 25 kg is ten per hundred of honey, and 9.1 % of the blend', () => {
    expect(seedPerHoney(25_000, 10)).toEqual({
      honeyMassG: 25_000,
      seedMassG: 2500,
      blendMassG: 27_500,
    });
    const shares = seedShares(25_000, 2500);
    expect(shares.perHundredOfHoney).toBe(10);
    expect(shares.percentOfBlend).toBeCloseTo(9.09, 2);
  });

  // Published: nine parts of honey to one of seed are 10 % of the blend; 1:7 is about 12.5 %.
  test('nine to one is a tenth of the blend, one to seven an eighth', () => {
    expect(seedForBlendShare(22_500, 10).seedMassG).toBe(2500);
    expect(seedShares(9, 1).percentOfBlend).toBe(10);
    expect(seedShares(7, 1).percentOfBlend).toBe(12.5);
    expect(splitBlend(30_000, 10)).toEqual({
      honeyMassG: 27_000,
      seedMassG: 3000,
      blendMassG: 30_000,
    });
  });

  test('a blend is split into whole grams that add up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 500_000 }),
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        (blendMassG, percentOfBlend) => {
          const { honeyMassG, seedMassG } = splitBlend(blendMassG, percentOfBlend);

          expect(honeyMassG + seedMassG).toBe(blendMassG);
          expect(Number.isInteger(seedMassG)).toBe(true);
          expect(seedMassG).toBeGreaterThan(0);
          expect(Math.abs(seedMassG - (blendMassG * percentOfBlend) / 100)).toBeLessThan(1);
        },
      ),
      { numRuns: 1000 },
    );
  });

  test('either way of speaking leads back to itself', () => {
    fc.assert(
      fc.property(mass, fc.double({ min: 0.1, max: 50, noNaN: true }), (honeyMassG, share) => {
        const perHoney = seedPerHoney(honeyMassG, share);
        const ofBlend = seedForBlendShare(honeyMassG, share);

        expect(seedShares(honeyMassG, perHoney.seedMassG).perHundredOfHoney).toBeCloseTo(share, 9);
        expect(seedShares(honeyMassG, ofBlend.seedMassG).percentOfBlend).toBeCloseTo(share, 9);
        expect(ofBlend.seedMassG).toBeGreaterThan(perHoney.seedMassG);
        expect(ofBlend.blendMassG).toBe(honeyMassG + ofBlend.seedMassG);
      }),
      { numRuns: 1000 },
    );
  });

  test.each([
    ['honeyMassG must be a number above 0', () => seedPerHoney(0, 10)],
    ['perHundredOfHoney must be a number above 0', () => seedPerHoney(1, 0)],
    ['perHundredOfHoney must be a number from 0 to 100', () => seedPerHoney(1, 100.1)],
    ['honeyMassG must be a number above 0', () => seedForBlendShare(-1, 10)],
    ['percentOfBlend must be a number above 0', () => seedForBlendShare(1, 0)],
    ['percentOfBlend must be a number from 0 to 50', () => seedForBlendShare(1, 50.1)],
    ['blendMassG must be whole grams', () => splitBlend(2.5, 10)],
    ['blendMassG must be a number from 2 upwards', () => splitBlend(1, 10)],
    ['percentOfBlend must be a number from 0 to 50', () => splitBlend(100, 51)],
    ['honeyMassG must be a number above 0', () => seedShares(0, 1)],
    ['seedMassG must be a number above 0', () => seedShares(1, NaN)],
  ])('%s', (message, run) => {
    expect(run).toThrow(RangeError);
    expect(run).toThrow(message);
  });
});

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

describe('building up seed', () => {
  const usual: BuildUpQuestion = {
    startSeedG: 250,
    percentOfBlend: 10,
    keepPercentOfBlend: 50,
    batchesPerMonth: 1,
    wantedSeedG: 30_000,
  };

  // By hand: five times as much with every batch; a tenth of the first seed's share left each time.
  test('250 g become 31 kg in three batches of which half is kept', () => {
    const plan = seedBuildUp(usual);

    if (plan.kind !== 'enough') throw new Error(plan.kind);
    expect(plan.afterMonths).toBe(3);
    expect(plan.batches.map(({ seedInHandG }) => seedInHandG)).toEqual([1250, 6250, 31_250]);
    expect(plan.batches[0]).toEqual({
      number: 1,
      readyAfterMonths: 1,
      seedUsedG: 250,
      blendG: 2500,
      keptG: 1250,
      seedInHandG: 1250,
      firstSeedPercent: 10,
    });
    expect(plan.batches[1]!.firstSeedPercent).toBeCloseTo(1, 12);
    expect(plan.batches[2]!.firstSeedPercent).toBeCloseTo(0.1, 12);
  });

  test('two batches a month halve the time', () => {
    const plan = seedBuildUp({ ...usual, batchesPerMonth: 2 });

    expect(plan).toMatchObject({ afterMonths: 1.5 });
    const ready = plan.kind === 'enough' && plan.batches.map((batch) => batch.readyAfterMonths);
    expect(ready).toEqual([0.5, 1, 1.5]);
  });

  // By hand: 1000 g in hand, a 5 kg pail takes 500 g of it and gives 2500 g back: 3000 g, of which
  // 500 g and a tenth of 2500 g are first seed.
  test('seed that does not fit the largest batch waits for the next', () => {
    const plan = seedBuildUp({
      ...usual,
      startSeedG: 1000,
      largestBatchG: 5000,
      wantedSeedG: 5000,
    });

    if (plan.kind !== 'enough') throw new Error(plan.kind);
    expect(plan.batches.map(({ seedInHandG }) => seedInHandG)).toEqual([3000, 5000]);
    expect(plan.batches[0]!.firstSeedPercent).toBeCloseTo((100 * 750) / 3000, 9);
    expect(plan.batches[1]!.firstSeedPercent).toBeCloseTo((100 * (625 + 62.5)) / 5000, 9);
  });

  test('enough in hand needs no batch', () => {
    expect(seedBuildUp({ ...usual, wantedSeedG: 250 })).toEqual({
      kind: 'enough',
      afterMonths: 0,
      batches: [],
    });
  });

  test('keeping no more than the seed that went in never grows', () => {
    const plan = seedBuildUp({ ...usual, keepPercentOfBlend: 10 });

    expect(plan).toEqual({ kind: 'never', keepMoreThanPercentOfBlend: 10 });
    expect(seedBuildUp({ ...usual, keepPercentOfBlend: 11 }).kind).toBe('enough');
  });

  test('what takes more than 240 batches is called too slow', () => {
    const plan = seedBuildUp({ ...usual, largestBatchG: 1000, wantedSeedG: 1e9 });

    expect(plan.kind).toBe('too-slow');
    expect(plan.kind === 'too-slow' && plan.batches).toHaveLength(240);
  });

  test('mass is kept in every batch, and the first seed only thins', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 50, noNaN: true }),
        fc.double({ min: 51, max: 100, noNaN: true }),
        fc.double({ min: 500, max: 5000, noNaN: true }),
        fc.double({ min: 10_000, max: 50_000, noNaN: true }),
        (percentOfBlend, keepPercentOfBlend, startSeedG, largestBatchG) => {
          const plan = seedBuildUp({
            ...usual,
            percentOfBlend,
            keepPercentOfBlend,
            startSeedG,
            largestBatchG,
          });
          if (plan.kind === 'never') throw new Error('grows');

          let beforeG = startSeedG;
          let firstBefore = 100;
          for (const batch of plan.batches) {
            const afterG = beforeG - batch.seedUsedG + batch.keptG;
            expect(batch.seedInHandG / afterG).toBeCloseTo(1, 12);
            expect(batch.blendG).toBeLessThanOrEqual(largestBatchG * (1 + 1e-12));
            expect(batch.seedUsedG).toBeLessThanOrEqual(beforeG);
            expect(batch.firstSeedPercent).toBeLessThan(firstBefore);
            beforeG = batch.seedInHandG;
            firstBefore = batch.firstSeedPercent;
          }
        },
      ),
      { numRuns: 1000 },
    );
  });

  test.each([
    ['startSeedG must be a number above 0', { startSeedG: 0 }],
    ['wantedSeedG must be a number above 0', { wantedSeedG: 0 }],
    ['percentOfBlend must be a number above 0', { percentOfBlend: 0 }],
    ['percentOfBlend must be a number from 0 to 50', { percentOfBlend: 50.1 }],
    ['keepPercentOfBlend must be a number from 0 to 100', { keepPercentOfBlend: 101 }],
    ['keepPercentOfBlend must be a number from 0 to 100', { keepPercentOfBlend: -1 }],
    ['batchesPerMonth must be a number from 0.1 to 10', { batchesPerMonth: 0 }],
    ['batchesPerMonth must be a number from 0.1 to 10', { batchesPerMonth: 11 }],
    ['largestBatchG must be a number above 0', { largestBatchG: 0 }],
  ])('%s', (message, change) => {
    expect(() => seedBuildUp({ ...usual, ...change })).toThrow(RangeError);
    expect(() => seedBuildUp({ ...usual, ...change })).toThrow(message);
  });
});
