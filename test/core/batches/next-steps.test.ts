import fc from 'fast-check';
import {
  nextSteps,
  stepOrder,
  timeLimits,
  type BatchStepKind,
} from '../../../src/core/batches/next-steps';

describe('what may be done next to a batch', () => {
  // The order of the work: common practice, no source.
  test.each<[BatchStepKind[], BatchStepKind[]]>([
    [[], ['loaded', 'cleared', 'cooled', 'seeded', 'abandoned']],
    [['loaded'], ['cleared', 'cooled', 'seeded', 'abandoned']],
    [['cooled'], ['seeded', 'abandoned']],
    [['seeded'], ['potted', 'set', 'abandoned']],
    [
      ['loaded', 'seeded', 'potted'],
      ['shelved', 'set', 'abandoned'],
    ],
    [
      ['seeded', 'potted', 'shelved'],
      ['set', 'abandoned'],
    ],
    [['seeded', 'potted', 'set'], []],
    [['seeded', 'set'], ['potted']],
    [['seeded', 'set', 'potted'], []],
    [['loaded', 'abandoned'], []],
    [['seeded', 'abandoned'], []],
  ])('after %j: %j', (done, next) => {
    expect(nextSteps(done)).toEqual(next);
  });

  test('nothing is done twice, and every batch comes to an end', () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), (choices) => {
        const done: BatchStepKind[] = [];
        for (const choice of choices) {
          const next = nextSteps(done);
          const kind = next[choice % Math.max(1, next.length)];
          if (kind === undefined) break;
          expect(done).not.toContain(kind);
          done.push(kind);
        }
        expect(done.includes('set') || done.includes('abandoned')).toBe(true);
        expect(done.includes('potted') && !done.includes('seeded')).toBe(false);
      }),
    );
  });
});

describe('when a step may have been done', () => {
  test('the first step has no limits', () => {
    expect(timeLimits('loaded', [])).toEqual({ notBefore: null, notAfter: null });
  });

  test('not before the step that comes before it, nor after the one that comes after it', () => {
    const seeded = { kind: 'seeded', at: 100 } as const;
    const set = { kind: 'set', at: 900 } as const;

    expect(timeLimits('potted', [set, seeded])).toEqual({ notBefore: seeded, notAfter: set });
    expect(timeLimits('abandoned', [{ kind: 'loaded', at: 50 }, seeded])).toEqual({
      notBefore: seeded,
      notAfter: null,
    });
  });

  test('steps filed in order, each within its limits, are in order of time', () => {
    const times = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 7, maxLength: 7 });
    fc.assert(
      fc.property(times, (wished) => {
        const done: { kind: BatchStepKind; at: number }[] = [];
        for (const [index, at] of wished.entries()) {
          const kind = stepOrder[index];
          if (kind === undefined) continue;
          const { notBefore } = timeLimits(kind, done);
          if (at >= (notBefore?.at ?? 0)) done.push({ kind, at });
        }
        const order = done.map((step) => step.at);
        expect(order).toEqual([...order].sort((a, b) => a - b));
      }),
    );
  });
});
