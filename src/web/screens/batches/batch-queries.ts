import { useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Batch = components['schemas']['BatchResponse'];
export type BatchSummary = components['schemas']['BatchSummary'];
export type Lot = components['schemas']['LotResponse'];
export type Stage = BatchSummary['stage'];
export type StepKind = components['schemas']['StepRequest']['kind'];

export function useBatches(filter: { memberId?: string; stage?: Stage }) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['batches', clubId, filter],
    queryFn: () =>
      everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/batches', {
            params: {
              path: { clubId },
              query: { ...filter, ...pageFrom(cursor) },
            },
          }),
        1000,
      ),
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

/** Lots of one kind that somebody holds and that have mass left. */
export function useLotsWithMass(kind: Lot['kind'], holderId: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['lots', clubId, kind, holderId, 'with-mass'],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/lots', {
          params: {
            path: { clubId },
            query: {
              kind,
              holderId,
              withMass: true,
              ...pageFrom(cursor),
            },
          },
        }),
      ),
  });
}
