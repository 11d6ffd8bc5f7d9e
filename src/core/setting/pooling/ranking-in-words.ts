import { speedInWords } from '../regression/speed-in-words';
import type { LevelRanking } from './rank-levels';

export type RankingInWords = {
  /** One sentence: the order, or that there is none. */
  summary: string;
  /** What each figure rests on, the fastest first. */
  levels: string[];
  /** One for each pair that can be told apart. */
  toldApart: string[];
};

/**
 * A ranking as a member would say it: an order only where the data can rank, what can be told apart,
 * and on how many batches each figure rests.
 */
export function rankingInWords({ levels, pairs, order }: LevelRanking): RankingInWords {
  const told = pairs.filter(({ toldApart }) => toldApart);
  return {
    summary: summaryOf(order, told.length, pairs.length),
    levels: levels.map(({ level, n, setCount }) => {
      const batches = n === 1 ? '1 batch' : `${n} batches`;
      return `${level}: ${batches}, ${setCount} seen set`;
    }),
    toldApart: told.map(({ faster, slower, speed }) => speedInWords(faster, slower, speed)),
  };
}

function summaryOf(order: string[] | null, told: number, pairs: number): string {
  if (pairs === 0) return 'There is nothing to compare with.';
  if (order !== null) return `From the fastest: ${order.join(', ')}.`;
  if (told === 0) return 'None can be told apart yet.';
  return `They cannot be ranked; of ${pairs} pairs ${told} can be told apart.`;
}
