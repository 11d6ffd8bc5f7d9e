import { useDebouncedValue } from '@mantine/hooks';
import { keepPreviousData, useQuery, type UseQueryResult } from '@tanstack/react-query';
import { Unreached } from '../../api/client';
import { keepAnswer, keptAnswer } from './kept-answers';

/**
 * Asks the service again whenever what is asked changes, a moment after the last keystroke. Where it is not reached, the answer to the same
 * question is shown if this browser had one before.
 */
export function useReckoning<Asked, Answer>(
  name: string,
  asked: Asked | null,
  reckon: (asked: Asked) => Promise<Answer>,
): UseQueryResult<Answer> {
  const [settled] = useDebouncedValue(asked, 300);
  return useQuery({
    queryKey: ['calculation', name, settled],
    queryFn: async () => {
      if (settled === null) throw new Error('Nothing is asked yet.');
      try {
        const answer = await reckon(settled);
        keepAnswer(name, settled, answer);
        return answer;
      } catch (error) {
        const kept = error instanceof Unreached ? keptAnswer(name, settled) : undefined;
        if (kept === undefined) throw error;
        return kept as Answer;
      }
    },
    enabled: settled !== null,
    placeholderData: keepPreviousData,
    staleTime: Infinity,
    retry: false,
  });
}
