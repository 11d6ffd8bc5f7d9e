import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import type { components, paths } from '../../api/schema';

export type SettingTimes = components['schemas']['SettingTimesResponse'];
export type SettingGroup = components['schemas']['SettingGroup'];
type Query = NonNullable<
  paths['/api/v1/clubs/{clubId}/setting-times']['get']['parameters']['query']
>;
export type By = NonNullable<Query['by']>;

export function useSettingTimes(by: By, adjust: readonly string[]) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['setting-times', clubId, by, adjust],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/setting-times', {
          params: {
            path: { clubId },
            query: { by, ...(adjust.length > 0 && { adjust: adjust.join(',') as never }) },
          },
        }),
      ),
    placeholderData: keepPreviousData,
  });
}

/** Where the same table is as CSV. */
export function csvAddress(
  clubId: string,
  by: By,
  adjust: readonly string[],
  table: 'groups' | 'curve',
): string {
  const query = new URLSearchParams({ by, table });
  if (adjust.length > 0) query.set('adjust', adjust.join(','));
  return `/api/v1/clubs/${clubId}/setting-times.csv?${query.toString()}`;
}
