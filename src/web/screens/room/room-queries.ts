import { queryOptions, useQuery } from '@tanstack/react-query';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import type { components } from '../../api/schema';
import { dayStarts, daysAtFirst } from './days';
import type { Diary } from './diary';

export type Booking = components['schemas']['BookingResponse'];

/** The diary as it is drawn. */
export interface DrawnDiary extends Diary {
  /** The start of each day, and the end of the last. */
  days: Date[];
}

/**
 * What stands in the diary of every station on some days. Until it comes, what is known: of the same days, if they were among those seen
 * last, or else of those.
 */
export function useDiary(days: Date[]) {
  const { clubId } = useClub();
  const query = diaryQuery(clubId, days);
  return useQuery({
    ...query,
    placeholderData: (last: DrawnDiary | undefined) => {
      const [from = '', to = ''] = isoEndsOf(days);
      const isWithin = last !== undefined && last.from <= from && to <= last.toldUntil;
      return isWithin ? { ...last, days } : last;
    },
  });
}

/** Reads what the screen begins with. */
export function readDiaryAhead(clubId: string, timeZone: string): Promise<unknown> {
  return queries.query(diaryQuery(clubId, dayStarts(new Date(), daysAtFirst, timeZone)));
}

function diaryQuery(clubId: string, days: Date[]) {
  const [from = '', to = ''] = isoEndsOf(days);
  return queryOptions({
    queryKey: ['diary', clubId, from, to],
    queryFn: async (): Promise<DrawnDiary> => {
      const params = { path: { clubId }, query: { from, to } };
      return { ...(await answer(api.GET('/api/v1/clubs/{clubId}/diary', { params }))), days };
    },
  });
}

function isoEndsOf(days: Date[]): string[] {
  return [days[0], days.at(-1)].flatMap((day) => day?.toISOString() ?? []);
}

/** All that is known of one booking. */
export function useBooking(id: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['booking', clubId, id],
    queryFn: () =>
      answer(api.GET('/api/v1/clubs/{clubId}/bookings/{id}', { params: { path: { clubId, id } } })),
  });
}
