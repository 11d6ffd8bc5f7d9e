import { Injectable } from '@nestjs/common';
import { nextFreeTimes } from '../core/planning/next-free-times';
import { invalidParameter, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { gramsOf } from '../platform/fields';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import {
  diaryQuery,
  toDiary,
  toFreeTimes,
  type DiaryRow,
  type StationDiary,
} from './station-diary';
import { refuseBadDuties, setDuties } from './station-duties';
import { setPlaces } from './station-places';
import { readStation, stationQuery } from './station-rows';
import type { FreeQuery, StationQuery, StationRequest } from './stations.requests';
import {
  toStationResponse,
  type FreeTimesResponse,
  type StationResponse,
  type StationRow,
} from './stations.responses';

const longestSearchMs = 400 * 86_400_000;

@Injectable()
export class StationsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: StationQuery): Promise<Page<StationResponse>> {
    const withRetired = query.withRetired === true;
    const list = `stations ${caller.clubId} ${withRetired}`;
    const [name, id] = startOf(query, list) ?? [null, null];
    const asked = Prisma.sql`(${withRetired} or s.retired_at is null)
      and (${id}::uuid is null or (s.name, s.id) > (${name}, ${id}::uuid))
      order by s.name, s.id limit ${query.limit + 1}`;
    const rows = await this.database.rows<StationRow>(stationQuery(caller.clubId, asked));
    return pageOf(rows, query, list, (row) => [row.name, row.id], toStationResponse);
  }

  async show(caller: ClubCaller, id: string): Promise<StationResponse> {
    const [row] = await this.database.rows<StationRow>(
      stationQuery(caller.clubId, Prisma.sql`s.id = ${id}::uuid`),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toStationResponse(row);
  }

  setUp(caller: ClubCaller, request: StationRequest): Promise<StationResponse> {
    refuseBadDuties(request.duties);
    return this.database.write(caller, async (tx) => {
      const { id } = await tx.station.create({
        data: {
          clubId: caller.clubId,
          name: request.name,
          placeLoadG: gramsOf(request.placeLoadKg),
          changeoverMinutes: request.changeoverMinutes,
        },
      });
      const now = this.clock.now();
      await setDuties(tx, caller.clubId, id, request.duties, now);
      await setPlaces(tx, caller.clubId, id, request.places, now);
      await audit(tx, caller, 'station.set-up', id, { name: request.name });
      return readStation(tx, caller.clubId, id);
    });
  }

  async free(caller: ClubCaller, id: string, query: FreeQuery): Promise<FreeTimesResponse> {
    refuseBadSearch(query);
    const [row] = await this.database.rows<DiaryRow>(
      diaryQuery(caller.clubId, id, query.from, query.to),
    );
    if (row === undefined) throw new Refusal('not-found');
    const diary = toDiary(id, row);
    if (!canServe(diary, query)) return { items: [] };
    const spans = nextFreeTimes(diary.times, query, {
      from: query.from.getTime(),
      until: query.to.getTime(),
      count: 50,
    });
    return { items: toFreeTimes(spans) };
  }

  /** Makes every other booking or closure of the station wait until this transaction ends. Refuses when the club has no such station. */
  async lock(tx: Transaction, clubId: string, id: string): Promise<void> {
    const found = await tx.$queryRaw<unknown[]>(Prisma.sql`
      select 1 from station where club_id = ${clubId}::uuid and id = ${id}::uuid for no key update`);
    if (found.length === 0) throw new Refusal('not-found');
  }

  /** The diary as it stands for a transaction that has locked the station. */
  async diary(
    tx: Transaction,
    clubId: string,
    id: string,
    from: Date,
    until: Date,
    exceptBookingId: string | null = null,
  ): Promise<StationDiary> {
    const [row] = await tx.$queryRaw<DiaryRow[]>(
      diaryQuery(clubId, id, from, until, exceptBookingId),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toDiary(id, row);
  }
}

/** Whether the station has that duty and can hold some temperature of that band in it. */
export function canServe(
  { duties }: Pick<StationDiary, 'duties'>,
  wish: { duty: string; minC: number; maxC: number },
): boolean {
  return duties.some(
    ({ duty, minC, maxC }) => duty === wish.duty && minC <= wish.maxC && wish.minC <= maxC,
  );
}

function refuseBadSearch({ from, to, minC, maxC }: FreeQuery): void {
  if (to.getTime() <= from.getTime() || to.getTime() - from.getTime() > longestSearchMs) {
    throw invalidParameter('to', 'to must be after from, by 400 days at most.');
  }
  if (minC > maxC) throw invalidParameter('maxC', `maxC must be at least minC (${minC}).`);
}
