import { useQuery } from '@tanstack/react-query';
import { answer, answerWithTag, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Overstay = components['schemas']['OverstayResponse'];
export type NoShow = components['schemas']['NoShowResponse'];

/** Honey that stands past the end of its booking, the longest first. */
export function useOverstays() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['overstays', clubId],
    queryFn: () =>
      everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/overstays', {
            params: { path: { clubId }, query: pageFrom(cursor) },
          }),
        200,
      ),
    refetchInterval: 120_000,
  });
}

/** Bookings that have begun and for which nothing came in. */
export function useNoShows() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['no-shows', clubId],
    queryFn: () =>
      everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/no-shows', {
            params: { path: { clubId }, query: pageFrom(cursor) },
          }),
        200,
      ),
    refetchInterval: 120_000,
  });
}

/** Says that the places are clear, and why, if it was not their holder who cleared them. */
export async function releaseBooking(clubId: string, id: string, reason?: string): Promise<void> {
  await answer(
    api.POST('/api/v1/clubs/{clubId}/bookings/{id}/release', {
      params: { path: { clubId, id } },
      body: reason === undefined ? {} : { reason },
    }),
  );
}

export async function extendBooking(clubId: string, id: string, endsAt: string): Promise<void> {
  const path = { clubId, id };
  const { etag } = await answerWithTag(
    api.GET('/api/v1/clubs/{clubId}/bookings/{id}', { params: { path } }),
  );
  await answer(
    api.PATCH('/api/v1/clubs/{clubId}/bookings/{id}', {
      params: { path, header: { 'If-Match': etag } },
      body: { endsAt },
    }),
  );
}
