import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Booking = components['schemas']['BookingResponse'];
export type Closure = components['schemas']['ClosureResponse'];
export type DutyWindow = components['schemas']['DutyWindowResponse'];

/** What is booked in a span of time. */
export function useBookings(from: Date, to: Date) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['bookings', clubId, from.toISOString(), to.toISOString()],
    queryFn: () =>
      everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/bookings', {
            params: {
              path: { clubId },
              query: { from: from.toISOString(), to: to.toISOString(), ...pageFrom(cursor) },
            },
          }),
        5000,
      ),
    placeholderData: keepPreviousData,
  });
}

/** When stations are closed or kept for one duty, from a time on. */
export function useStationRules(stationIds: string[], from: Date) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['station-rules', clubId, stationIds, from.toISOString()],
    queryFn: async () => {
      const of = (stationId: string, cursor: string | undefined) => ({
        params: {
          path: { clubId, stationId },
          query: { from: from.toISOString(), ...pageFrom(cursor) },
        },
      });
      const each = await Promise.all(
        stationIds.map(async (id) => ({
          closures: await everyItem((cursor) =>
            api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/closures', of(id, cursor)),
          ),
          windows: await everyItem((cursor) =>
            api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/duty-windows', of(id, cursor)),
          ),
        })),
      );
      return {
        closures: each.flatMap(({ closures }) => closures),
        windows: each.flatMap(({ windows }) => windows),
      };
    },
    staleTime: 60_000,
  });
}
