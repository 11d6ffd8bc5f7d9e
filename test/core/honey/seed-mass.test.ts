import fc from 'fast-check';
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
