import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, answerWithTag, api, everyItem, ifMatch, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';
import type { Station } from '../club/club-queries';
import type { Booking } from '../room/room-queries';

export type DutyWindow = components['schemas']['DutyWindowResponse'];
export type Closure = components['schemas']['ClosureResponse'];
export type Displaced = components['schemas']['DisplacedBooking'];

export type StationChange = components['schemas']['StationChange'];

/** Stations that are out of use. */
export function useStationsOutOfUse() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['stations', clubId, 'out of use'],
    queryFn: async () => {
      const all = await everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/stations', {
          params: { path: { clubId }, query: { withRetired: true, ...pageFrom(cursor) } },
        }),
      );
      return all.filter(({ retiredAt }) => retiredAt !== null);
    },
  });
}

/** Changes a station as it stands now. */
export async function changeStation(
  clubId: string,
  id: string,
  change: StationChange,
): Promise<Station> {
  const path = { clubId, id };
  return answer(
    api.PATCH('/api/v1/clubs/{clubId}/stations/{id}', {
      params: { path, header: await ifMatch(readOne(path)) },
      body: change,
    }),
  );
}

/** Removes a station without a history. */
export async function removeStation(clubId: string, id: string): Promise<void> {
  const path = { clubId, id };
  await answer(
    api.DELETE('/api/v1/clubs/{clubId}/stations/{id}', {
      params: { path, header: await ifMatch(readOne(path)) },
    }),
  );
}

function readOne(path: { clubId: string; id: string }) {
  return api.GET('/api/v1/clubs/{clubId}/stations/{id}', { params: { path } });
}

/** A station's duty windows that are not over. */
export function useDutyWindows(stationId: string) {
  const { clubId } = useClub();
  const [from] = useState(() => new Date().toISOString());
  return useQuery({
    queryKey: ['duty-windows', clubId, stationId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/duty-windows', {
          params: { path: { clubId, stationId }, query: { from, ...pageFrom(cursor) } },
        }),
      ),
  });
}

/** A station's closures that are not over. */
export function useClosures(stationId: string) {
  const { clubId } = useClub();
  const [from] = useState(() => new Date().toISOString());
  return useQuery({
    queryKey: ['closures', clubId, stationId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/closures', {
          params: { path: { clubId, stationId }, query: { from, ...pageFrom(cursor) } },
        }),
      ),
  });
}

/** What stands on places of the club's stations just now, by the diary. */
export function useStanding() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['bookings', clubId, 'now'],
    queryFn: () => {
      const from = new Date();
      const to = new Date(from.getTime() + 60_000);
      return everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/bookings', {
          params: {
            path: { clubId },
            query: { from: from.toISOString(), to: to.toISOString(), ...pageFrom(cursor) },
          },
        }),
      );
    },
    refetchInterval: 120_000,
  });
}

/** How many bookings in the way are told one by one. */
export const mostNamed = 20;

/** The first of those bookings, as they stand now. */
export function useNamedBookings(ids: string[]) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['bookings', clubId, 'named', ids],
    queryFn: (): Promise<Booking[]> =>
      Promise.all(
        ids
          .slice(0, mostNamed)
          .map((id) =>
            answer(
              api.GET('/api/v1/clubs/{clubId}/bookings/{id}', { params: { path: { clubId, id } } }),
            ),
          ),
      ),
  });
}

interface OfStation {
  clubId: string;
  stationId: string;
  id: string;
}

export async function removeWindow(path: OfStation): Promise<void> {
  const { etag } = await answerWithTag(
    api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/duty-windows/{id}', { params: { path } }),
  );
  await answer(
    api.DELETE('/api/v1/clubs/{clubId}/stations/{stationId}/duty-windows/{id}', {
      params: { path, header: { 'If-Match': etag } },
    }),
  );
}

export async function removeClosure(path: OfStation): Promise<void> {
  const { etag } = await answerWithTag(
    api.GET('/api/v1/clubs/{clubId}/stations/{stationId}/closures/{id}', { params: { path } }),
  );
  await answer(
    api.DELETE('/api/v1/clubs/{clubId}/stations/{stationId}/closures/{id}', {
      params: { path, header: { 'If-Match': etag } },
    }),
  );
}
