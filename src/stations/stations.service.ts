import { Injectable } from '@nestjs/common';
import { nextFreeTimes } from '../core/planning/next-free-times';
import { invalidField, invalidParameter, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { deciOf, gramsOf } from '../platform/fields';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import {
  diaryQuery,
  toDiary,
  toFreeTimes,
  type DiaryRow,
  type StationDiary,
} from './station-diary';
import type { FreeQuery, StationChange, StationRequest } from './stations.requests';
import {
  toStationResponse,
  type FreeTimesResponse,
  type StationResponse,
  type StationRow,
} from './stations.responses';

const stationColumns = Prisma.sql`
  s.id, s.name, s.place_load_g as "placeLoadG", s.changeover_minutes as "changeoverMinutes",
  (select json_agg(json_build_object('duty', duty, 'minDeciC', min_deci_c, 'maxDeciC', max_deci_c) order by duty)
   from station_duty d where d.club_id = s.club_id and d.station_id = s.id) as duties,
  (select count(*)::int from place p where p.club_id = s.club_id and p.station_id = s.id) as "placeCount"`;

const longestSearchMs = 400 * 86_400_000;

@Injectable()
export class StationsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: PageQuery): Promise<Page<StationResponse>> {
    const list = `stations ${caller.clubId}`;
    const [name, id] = startOf(query, list) ?? [null, null];
    const rows = await this.database.rows<StationRow>(Prisma.sql`
      select ${stationColumns} from station s
      where s.club_id = ${caller.clubId}::uuid
        and (${id}::uuid is null or (s.name, s.id) > (${name}, ${id}::uuid))
      order by s.name, s.id limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.name, row.id], toStationResponse);
  }

  async show(caller: ClubCaller, id: string): Promise<StationResponse> {
    const [row] = await this.database.rows<StationRow>(stationQuery(caller.clubId, id));
    if (row === undefined) throw new Refusal('not-found');
    return toStationResponse(row);
  }

  setUp(caller: ClubCaller, request: StationRequest): Promise<StationResponse> {
    refuseBadDuties(request);
    return this.database.write(caller, async (tx) => {
      const { id } = await tx.station.create({
        data: {
          clubId: caller.clubId,
          name: request.name,
          placeLoadG: gramsOf(request.placeLoadKg),
          changeoverMinutes: request.changeoverMinutes,
        },
      });
      await tx.stationDuty.createMany({
        data: request.duties.map(({ duty, minC, maxC }) => ({
          clubId: caller.clubId,
          stationId: id,
          duty,
          minDeciC: deciOf(minC),
          maxDeciC: deciOf(maxC),
        })),
      });
      await addPlaces(tx, caller.clubId, id, 0, request.places);
      await audit(tx, caller, 'station.set-up', id, { name: request.name });
      return read(tx, caller.clubId, id);
    });
  }

  change(caller: ClubCaller, id: string, change: StationChange): Promise<StationResponse> {
    return this.database.write(caller, async (tx) => {
      await this.lock(tx, caller.clubId, id);
      const current = await read(tx, caller.clubId, id);
      refuseIfStale(caller, current);
      const places = change.places ?? current.places;
      if (places < current.places) {
        throw invalidField(
          '#/places',
          `The station has ${current.places} places; places are added, never taken away. Close the station instead.`,
        );
      }
      await tx.station.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: {
          ...(change.name !== undefined && { name: change.name }),
          ...(change.placeLoadKg !== undefined && { placeLoadG: gramsOf(change.placeLoadKg) }),
          ...(change.changeoverMinutes !== undefined && {
            changeoverMinutes: change.changeoverMinutes,
          }),
        },
      });
      if (change.changeoverMinutes !== undefined) {
        // Bookings ahead keep to the new changeover, or it is refused because they cannot.
        await tx.$executeRaw(Prisma.sql`
          update booking set changeover_minutes = ${change.changeoverMinutes}
          where club_id = ${caller.clubId}::uuid and station_id = ${id}::uuid and active and ends_at > now()`);
      }
      await addPlaces(tx, caller.clubId, id, current.places, places);
      await offerFreedTimes(tx, caller, id, this.clock.now());
      await audit(tx, caller, 'station.changed', id, change);
      return read(tx, caller.clubId, id);
    });
  }

  remove(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      await this.lock(tx, caller.clubId, id);
      const current = await read(tx, caller.clubId, id);
      refuseIfStale(caller, current);
      await tx.station.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'station.removed', id, { name: current.name });
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
  diary: StationDiary,
  wish: { duty: string; minC: number; maxC: number },
): boolean {
  return diary.duties.some(
    ({ duty, minC, maxC }) => duty === wish.duty && minC <= wish.maxC && wish.minC <= maxC,
  );
}

function stationQuery(clubId: string, id: string): Prisma.Sql {
  return Prisma.sql`
    select ${stationColumns} from station s where s.club_id = ${clubId}::uuid and s.id = ${id}::uuid`;
}

async function read(tx: Transaction, clubId: string, id: string): Promise<StationResponse> {
  const [row] = await tx.$queryRaw<StationRow[]>(stationQuery(clubId, id));
  if (row === undefined) throw new Refusal('not-found');
  return toStationResponse(row);
}

async function addPlaces(
  tx: Transaction,
  clubId: string,
  stationId: string,
  have: number,
  want: number,
): Promise<void> {
  const numbers = Array.from({ length: want - have }, (_, index) => have + index + 1);
  await tx.place.createMany({ data: numbers.map((number) => ({ clubId, stationId, number })) });
}

function refuseBadDuties({ duties }: StationRequest): void {
  duties.forEach(({ duty, minC, maxC }, index) => {
    if (minC > maxC) {
      throw invalidField(`#/duties/${index}/maxC`, `maxC must be at least minC (${minC}).`);
    }
    if (duties.findIndex((other) => other.duty === duty) < index) {
      throw invalidField(`#/duties/${index}/duty`, `The duty "${duty}" is there already.`);
    }
  });
}

function refuseBadSearch({ from, to, minC, maxC }: FreeQuery): void {
  if (to.getTime() <= from.getTime() || to.getTime() - from.getTime() > longestSearchMs) {
    throw invalidParameter('to', 'to must be after from, by 400 days at most.');
  }
  if (minC > maxC) throw invalidParameter('maxC', `maxC must be at least minC (${minC}).`);
}
