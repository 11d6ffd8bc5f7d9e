import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Probe = components['schemas']['ProbeResponse'];
export type ListedProbe = components['schemas']['ListedProbeResponse'];

export function useProbes() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['probes', clubId],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/probes', {
          params: { path: { clubId }, query: pageFrom(cursor) },
        }),
      ),
  });
}

export function useProbe(id: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['probe', clubId, id],
    queryFn: () =>
      answer(api.GET('/api/v1/clubs/{clubId}/probes/{id}', { params: { path: { clubId, id } } })),
  });
}

/** So many points a page's width shows. */
const pointsWanted = 180;

/** What it read in the days before its last reading, thinned for a drawing. */
export function useProbeReadings({ id, lastReading }: Probe, days: number) {
  const { clubId } = useClub();
  const lastAt = lastReading?.at;
  return useQuery({
    queryKey: ['probe-readings', clubId, id, days, lastAt],
    queryFn: async () => {
      const until = Date.parse(lastAt ?? '') + 1000;
      const { items } = await answer(
        api.GET('/api/v1/clubs/{clubId}/probes/{probeId}/readings', {
          params: {
            path: { clubId, probeId: id },
            query: {
              from: new Date(until - days * 86_400_000).toISOString(),
              until: new Date(until).toISOString(),
              everyMinutes: Math.max(1, Math.ceil((days * 1440) / pointsWanted)),
              limit: 200,
            },
          },
        }),
      );
      return items;
    },
    enabled: lastAt !== undefined,
    placeholderData: keepPreviousData,
  });
}

/** Batches whose honey a probe may be in: those that are not over. */
export function useRunningBatches() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['batches', clubId, 'running'],
    queryFn: async () => {
      const items = await everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/batches', {
            params: { path: { clubId }, query: pageFrom(cursor) },
          }),
        200,
      );
      return items.filter(({ stage }) => stage !== 'set' && stage !== 'abandoned');
    },
  });
}
