import { nextFreeTimes } from '../core/planning/next-free-times';
import type { Wish } from '../core/planning/station-times';
import { Prisma } from '../platform/prisma-client/client';
import {
  diaryQuery,
  toDiary,
  toFreeTimes,
  type DiaryRow,
  type StationDiary,
} from './station-diary';
import { canServe } from './stations.service';

/** Runs one statement, in a transaction or out of one. */
export type Reader = <Row extends object>(query: Prisma.Sql) => Promise<Row[]>;

export interface FreeElsewhere {
  stationId: string;
  stationName: string;
  freeTimes: ReturnType<typeof toFreeTimes>;
}

const timesOfEach = 3;

/** The diaries of all stations in use of a club with that duty, by name. */
export async function diariesOf(
  read: Reader,
  clubId: string,
  duty: string,
  from: Date,
  until: Date,
): Promise<StationDiary[]> {
  const stations = await read<{ id: string }>(Prisma.sql`
    select s.id from station s join station_duty d on d.club_id = s.club_id and d.station_id = s.id
    where s.club_id = ${clubId}::uuid and d.duty = ${duty}::duty and s.retired_at is null and d.retired_at is null order by s.name, s.id`);
  const diaries: StationDiary[] = [];
  for (const { id } of stations) {
    const [row] = await read<DiaryRow>(diaryQuery(clubId, id, from, until));
    if (row !== undefined) diaries.push(toDiary(id, row));
  }
  return diaries;
}

/** In which stations the wish fits between two instants (epoch milliseconds), and when first. Those where it never does are left out. */
export function freeElsewhere(
  diaries: readonly StationDiary[],
  wish: Wish,
  span: { from: number; until: number },
): FreeElsewhere[] {
  return diaries
    .filter((diary) => canServe(diary, wish))
    .map((diary) => ({
      stationId: diary.stationId,
      stationName: diary.name,
      freeTimes: toFreeTimes(nextFreeTimes(diary.times, wish, { ...span, count: timesOfEach })),
    }))
    .filter(({ freeTimes }) => freeTimes.length > 0);
}
