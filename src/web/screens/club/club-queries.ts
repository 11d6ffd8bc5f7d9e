import { useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Member = components['schemas']['MemberResponse'];
export type Station = components['schemas']['StationResponse'];
export type Duty = Station['duties'][number]['duty'];
export type FloralSource = components['schemas']['FloralSourceResponse'];
export type Token = components['schemas']['TokenResponse'];

export function useMembers() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['members', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/members', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
  });
}

/** Who is in the club now beside one of them, to choose from. */
export function useMembersBeside(memberId: string): { value: string; label: string }[] {
  const { data = [] } = useMembers();
  return data
    .filter(({ id, leftAt }) => id !== memberId && leftAt === null)
    .map(({ id, name }) => ({ value: id, label: name }));
}

export function useStations() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['stations', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/stations', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
    staleTime: 60_000,
  });
}

export function useFloralSources() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['floral-sources', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/floral-sources', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
    staleTime: 60_000,
  });
}

export function useTokens() {
  return useQuery({
    queryKey: ['tokens'],
    queryFn: () =>
      everyItem((cursor) => api.GET('/api/v1/tokens', { params: { query: pageFrom(cursor) } })),
  });
}

export function useAudit() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['audit', clubId],
    queryFn: async () =>
      (
        await answer(
          api.GET('/api/v1/clubs/{clubId}/audit', {
            params: { path: { clubId }, query: { limit: 100 } },
          }),
        )
      ).items,
  });
}
