import type { LevelRanking } from '../../../../src/core/setting/pooling/rank-levels';
import { rankingInWords } from '../../../../src/core/setting/pooling/ranking-in-words';

const speed = { ratio: 1.6, lower: 1.2, upper: 2.1, confidenceLevel: 0.95 };
const level = (name: string, n: number, setCount: number) => ({ level: name, n, setCount, speed });
const pair = (faster: string, slower: string, toldApart: boolean) => ({
  faster,
  slower,
  speed,
  toldApart,
});

const levels = [level('rape', 12, 11), level('clover', 1, 1), level('lime', 0, 0)];

test('where the data cannot rank it is said, with what can be told apart and on how many batches', () => {
  const ranking: LevelRanking = {
    levels,
    pairs: [
      pair('rape', 'clover', false),
      pair('rape', 'lime', true),
      pair('clover', 'lime', false),
    ],
    order: null,
  };

  expect(rankingInWords(ranking)).toEqual({
    summary: 'They cannot be ranked; of 3 pairs 1 can be told apart.',
    levels: [
      'rape: 12 batches, 11 seen set',
      'clover: 1 batch, 1 seen set',
      'lime: 0 batches, 0 seen set',
    ],
    toldApart: ['rape sets 1.6 times as fast as lime, 95 % 1.2 to 2.1'],
  });
});

test('an order is said only where there is one', () => {
  const told = { levels, pairs: [pair('rape', 'clover', true)], order: ['rape', 'clover'] };
  const none = { levels, pairs: [pair('rape', 'clover', false)], order: null };
  const single = { levels: levels.slice(0, 1), pairs: [], order: ['rape'] };

  expect(rankingInWords(told).summary).toBe('From the fastest: rape, clover.');
  expect(rankingInWords(none)).toMatchObject({
    summary: 'None can be told apart yet.',
    toldApart: [],
  });
  expect(rankingInWords(single).summary).toBe('There is nothing to compare with.');
});
