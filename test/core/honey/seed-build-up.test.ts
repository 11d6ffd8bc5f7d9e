import fc from 'fast-check';
import { seedBuildUp, type BuildUpQuestion } from '../../../src/core/honey/seed-build-up';

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
