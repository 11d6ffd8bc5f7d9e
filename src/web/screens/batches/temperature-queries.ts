import { useQuery } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Temperatures = components['schemas']['TemperaturesResponse'];
type LoggedCourse = components['schemas']['LoggedCourseResponse'];

/** How a batch was to warm and to cool, and what probes logged of it. */
export function useTemperatures(batchId: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['temperatures', clubId, batchId],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/batches/{batchId}/temperatures', {
          params: { path: { clubId, batchId } },
        }),
      ),
    staleTime: 60_000,
  });
}

/** Of several probes in the honey, the one that tells most. */
export function bestLogged({ logged }: Temperatures): LoggedCourse | undefined {
  return logged
    .filter(({ place }) => place === 'honey')
    .sort((a, b) => b.points.length - a.points.length)[0];
}
