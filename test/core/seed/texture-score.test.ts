import fc from 'fast-check';
import { textureScore } from '../../../src/core/seed/texture-score';

const none = { smooth: 0, grainy: 0, gritty: 0 };

test('smooth is 1, grainy a half, gritty 0, and the score their mean', () => {
  const club = { smooth: 9, grainy: 0, gritty: 1 };
  expect(textureScore({ smooth: 1, grainy: 1, gritty: 2 }, club).score).toBe(0.375);
  expect(textureScore({ smooth: 0, grainy: 0, gritty: 1 }, club)).toEqual({
    batches: 1,
    score: 0,
    pooledScore: 0.6,
  });
});

test('without batches of its own a seed is taken for the club’s mean; without any nothing is known', () => {
  expect(textureScore(none, { smooth: 1, grainy: 0, gritty: 1 })).toEqual({
    batches: 0,
    score: null,
    pooledScore: 0.5,
  });
  expect(textureScore(none, none)).toEqual({ batches: 0, score: null, pooledScore: null });
});

test('the pooled score lies between the seed’s own and the club’s, nearer to its own the more batches there are', () => {
  const count = fc.integer({ min: 0, max: 50 });
  const counts = fc.record({ smooth: count, grainy: count, gritty: count });
  fc.assert(
    fc.property(counts, counts, (own, others) => {
      const club = {
        smooth: own.smooth + others.smooth,
        grainy: own.grainy + others.grainy,
        gritty: own.gritty + others.gritty,
      };
      const { score, pooledScore } = textureScore(own, club);
      const mean = textureScore(club, club).score;
      if (score === null || pooledScore === null || mean === null) return;
      expect(pooledScore).toBeGreaterThanOrEqual(Math.min(score, mean) - 1e-12);
      expect(pooledScore).toBeLessThanOrEqual(Math.max(score, mean) + 1e-12);
      const twice = { smooth: 2 * own.smooth, grainy: 2 * own.grainy, gritty: 2 * own.gritty };
      const nearer = textureScore(twice, club).pooledScore ?? NaN;
      expect(Math.abs(nearer - score)).toBeLessThanOrEqual(Math.abs(pooledScore - score) + 1e-12);
    }),
  );
});
