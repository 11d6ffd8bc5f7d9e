import { useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components, paths } from '../../api/schema';

export type ShelfSeed = components['schemas']['ShelfSeedResponse'];
export type Fitting = components['schemas']['FittingSeedResponse'];
export type FittingLot = components['schemas']['FittingLotResponse'];
export type SeedWish = paths['/api/v1/clubs/{clubId}/fitting-seed']['get']['parameters']['query'];

export function useSeedShelf(filter: { mine: boolean; floralSourceId: string }) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['seed-shelf', clubId, filter],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/seed-shelf', {
          params: {
            path: { clubId },
            query: {
              ...(filter.mine && { mine: true }),
              ...(filter.floralSourceId !== '' && { floralSourceId: filter.floralSourceId }),
              ...pageFrom(cursor),
            },
          },
        }),
      ),
  });
}

export function useFittingForBatch(batchId: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['fitting-seed', clubId, batchId],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/batches/{id}/fitting-seed', {
          params: { path: { clubId, id: batchId } },
        }),
      ),
  });
}

export function useFittingForWish(wish: SeedWish) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['fitting-seed', clubId, wish],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/fitting-seed', {
          params: { path: { clubId }, query: wish },
        }),
      ),
  });
}
