import type { components } from '../../api/schema';

/** What stands in the diary of every station on some days. */
export type Diary = components['schemas']['DiaryResponse'];
export type DiaryStation = components['schemas']['DiaryStationResponse'];
export type DiaryBooking = components['schemas']['DiaryBookingResponse'];
