import { useQuery } from '@tanstack/react-query';
import { answer, answerWithTag, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type WaitingWish = components['schemas']['WaitingWishResponse'];

/** Who waits, the first in line first. */
export function useWaitingList() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['waiting-list', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/waiting-list', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
    refetchInterval: 60_000,
  });
}

/** Makes what is kept the member's own. */
export function takeOffer(clubId: string, id: string): Promise<WaitingWish> {
  return answer(
    api.POST('/api/v1/clubs/{clubId}/waiting-list/{id}/acceptance', {
      params: { path: { clubId, id } },
    }),
  );
}

/** Leaves the line; what is kept goes to the next. */
export async function leaveLine(clubId: string, id: string): Promise<void> {
  const path = { clubId, id };
  const { etag } = await answerWithTag(
    api.GET('/api/v1/clubs/{clubId}/waiting-list/{id}', { params: { path } }),
  );
  await answer(
    api.DELETE('/api/v1/clubs/{clubId}/waiting-list/{id}', {
      params: { path, header: { 'If-Match': etag } },
    }),
  );
}
