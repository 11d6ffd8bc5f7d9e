import { queryOptions, useQuery } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Today = components['schemas']['TodayResponse'];
export type Task = components['schemas']['TodayTask'];
export type Honey = components['schemas']['TodayHoney'];
export type Undo = components['schemas']['TodayUndo'];
export type Whose = 'mine' | 'all';

export function useToday(whose: Whose) {
  const { clubId } = useClub();
  return useQuery({ ...todayQuery(clubId, whose), refetchInterval: 60_000 });
}

export function todayQuery(clubId: string, whose: Whose) {
  return queryOptions({
    queryKey: ['today', clubId, whose],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/today', {
          params: { path: { clubId }, query: { whose } },
        }),
      ),
  });
}
