import { keepPreviousData, skipToken, useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';

export type Booking = components['schemas']['BookingResponse'];
export type Closure = components['schemas']['ClosureResponse'];
export type DutyWindow = components['schemas']['DutyWindowResponse'];

/** How many parts of a full span are asked for at once: as many as a browser has connections to one service. */
const partsAtOnce = 6;
const mostInPart = 2000;

/** What is booked in a span of time. */
export function useBookings(from: Date, to: Date) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['bookings', clubId, from.toISOString(), to.toISOString()],
    queryFn: () => bookingsWithin(clubId, from, to),
    placeholderData: keepPreviousData,
  });
}

/** Those that start first, of a span of which the rest is still on its way: they are there at once, and read together with the rest. */
export function useFirstBookings(from: Date, to: Date) {
  const { clubId } = useClub();
  return useQuery<Booking[]>({ queryKey: firstKey(clubId, from, to), queryFn: skipToken });
}

function firstKey(clubId: string, from: Date, to: Date) {
  return ['first-bookings', clubId, from.toISOString(), to.toISOString()];
}

async function bookingsWithin(clubId: string, from: Date, to: Date): Promise<Booking[]> {
  const within = (start: Date, end: Date, cursor?: string) =>
    api.GET('/api/v1/clubs/{clubId}/bookings', {
      params: {
        path: { clubId },
        query: { from: start.toISOString(), to: end.toISOString(), ...pageFrom(cursor) },
      },
    });
  const { items, nextCursor } = await answer(within(from, to));
  const last = items.at(-1);
  if (nextCursor === null || last === undefined) return items;
  queries.setQueryData(firstKey(clubId, from, to), items);
  // They come by their start. Page by page, each waits for the one before it; parts of the rest of the time do not.
  const rest = Math.max(from.getTime(), Date.parse(last.startsAt));
  const partMs = Math.ceil((to.getTime() - rest) / partsAtOnce);
  const parts = await Promise.all(
    Array.from({ length: partsAtOnce }, async (_, part) => {
      const start = new Date(rest + part * partMs);
      const end = new Date(Math.min(to.getTime(), start.getTime() + partMs));
      return start < end ? everyItem((cursor) => within(start, end, cursor), mostInPart) : [];
    }),
  );
  const byId = new Map([...items, ...parts.flat()].map((booking) => [booking.id, booking]));
  return [...byId.values()].sort((one, other) => one.startsAt.localeCompare(other.startsAt));
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
