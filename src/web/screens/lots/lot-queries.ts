import { queryOptions, useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';

export type Lot = components['schemas']['LotResponse'];
export type RelatedLot = components['schemas']['RelatedLot'];

export function useLots(filter: { kind: Lot['kind']; withMass: boolean }) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['lots', clubId, filter],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/lots', {
          params: {
            path: { clubId },
            query: {
              kind: filter.kind,
              ...(filter.withMass && { withMass: true }),
              ...pageFrom(cursor),
            },
          },
        }),
      ),
  });
}

/** Lots of one kind that somebody holds and of which something is left: the newest are there first, the others follow. */
export function useLotsWithMass(kind: Lot['kind'], holderId: string) {
  const { clubId } = useClub();
  const queryKey = ['lots', clubId, kind, holderId, 'with-mass'];
  return useQuery({
    queryKey,
    queryFn: () =>
      everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/lots', {
            params: {
              path: { clubId },
              query: { kind, holderId, withMass: true, ...pageFrom(cursor) },
            },
          }),
        undefined,
        (newest) => queries.setQueryData(queryKey, (known?: Lot[]) => known ?? newest),
      ),
  });
}

export function useLot(id: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['lot', clubId, id],
    queryFn: () =>
      answer(api.GET('/api/v1/clubs/{clubId}/lots/{id}', { params: { path: { clubId, id } } })),
  });
}

export function useAncestors(id: string) {
  const { clubId } = useClub();
  return useQuery(ancestorsQuery(clubId, id));
}

export function ancestorsQuery(clubId: string, id: string) {
  return queryOptions({
    queryKey: ['ancestors', clubId, id],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/lots/{id}/ancestors', {
          params: { path: { clubId, id } },
        }),
      ),
  });
}

export function useDescendants(id: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['descendants', clubId, id],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/lots/{id}/descendants', {
          params: { path: { clubId, id } },
        }),
      ),
  });
}
