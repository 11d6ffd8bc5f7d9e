import { keepPreviousData, useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { answer, api, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Batch = components['schemas']['BatchResponse'];
export type BatchSummary = components['schemas']['BatchSummary'];
export type Stage = BatchSummary['stage'];
export type StepKind = components['schemas']['StepRequest']['kind'];

/** As many as a screen or two shows. */
const pageSize = 50;

/** The club's batches, the newest first, a page at a time: a club may have hundreds. */
export function useBatches(filter: { memberId?: string; stage?: Stage; search?: string }) {
  const { clubId } = useClub();
  return useInfiniteQuery({
    queryKey: ['batches', clubId, filter],
    queryFn: ({ pageParam }) =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/batches', {
          params: {
            path: { clubId },
            query: { ...filter, ...pageFrom(pageParam), limit: pageSize },
          },
        }),
      ),
    initialPageParam: undefined as string | undefined,
    getNextPageParam: ({ nextCursor }) => nextCursor ?? undefined,
    placeholderData: keepPreviousData,
  });
}

export function useBatch(id: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['batch', clubId, id],
    queryFn: () =>
      answer(api.GET('/api/v1/clubs/{clubId}/batches/{id}', { params: { path: { clubId, id } } })),
  });
}
