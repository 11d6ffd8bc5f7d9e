import { useDebouncedValue } from '@mantine/hooks';
import { keepPreviousData, useQuery, type UseQueryResult } from '@tanstack/react-query';

/** Asks the service again whenever what is asked changes, a moment after the last keystroke. */
export function useReckoning<Asked, Answer>(
  name: string,
  asked: Asked | null,
  reckon: (asked: Asked) => Promise<Answer>,
): UseQueryResult<Answer> {
  const [settled] = useDebouncedValue(asked, 300);
  return useQuery({
    queryKey: ['reckoning', name, settled],
    queryFn: () => {
      if (settled === null) throw new Error('Nothing is asked yet.');
      return reckon(settled);
    },
    enabled: settled !== null,
    placeholderData: keepPreviousData,
    staleTime: Infinity,
    retry: false,
  });
}
