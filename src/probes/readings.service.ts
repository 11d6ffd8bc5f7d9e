import { Injectable } from '@nestjs/common';
import { refuseFuture } from '../core/refuse-future';
import { invalidField, invalidParameter, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { toCsv } from '../platform/csv';
import { Database } from '../platform/database';
import { deciOf } from '../platform/fields';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { placedReadings } from './placed-readings';
import { lockProbe } from './probe-rows';
import { readingsQuery } from './reading-rows';
import type { ReadingRequest, ReadingsFileQuery, ReadingsQuery } from './readings.requests';
import {
  toReadingResponse,
  type ReadingResponse,
  type ReadingRow,
  type RecordedReadings,
} from './readings.responses';
import { storeReadings, type SentReading } from './store-readings';

const MOST_IN_FILE = 100_000;

/** Where readings are asked for. */
type Place = 'probe' | 'station' | 'batch';

@Injectable()
export class ReadingsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  record(
    caller: ClubCaller,
    probeId: string,
    { readings }: { readings: ReadingRequest[] },
  ): Promise<RecordedReadings> {
    const now = this.clock.now();
    readings.forEach(({ at }, row) => refuseFuture(`#/readings/${row}/at`, at, now));
    const sent = withoutRepeats(readings);
    return this.database.write(caller, async (tx) => {
      await lockProbe(tx, caller.clubId, probeId);
      const stored = await storeReadings(tx, caller, probeId, sent);
      const [firstAt, lastAt] = ends(sent);
      const answer = { stored, alreadyKnown: readings.length - stored, firstAt, lastAt };
      // Sent again, they change nothing.
      if (stored > 0) await audit(tx, caller, 'readings.recorded', probeId, answer);
      return answer;
    });
  }

  ofProbe(caller: ClubCaller, id: string, query: ReadingsQuery): Promise<Page<ReadingResponse>> {
    return this.page(caller, 'probe', id, query);
  }

  inStation(caller: ClubCaller, id: string, query: ReadingsQuery): Promise<Page<ReadingResponse>> {
    return this.page(caller, 'station', id, query);
  }

  inBatch(caller: ClubCaller, id: string, query: ReadingsQuery): Promise<Page<ReadingResponse>> {
    return this.page(caller, 'batch', id, query);
  }

  /** In the form in which readings are sent. */
  async file(caller: ClubCaller, probeId: string, query: ReadingsFileQuery): Promise<string> {
    const { from = null, until = null } = query;
    refuseTurned(query);
    const rows = await this.database.rows<ReadingRow>(
      readingsQuery(sourceOf(caller, 'probe', probeId), {
        from,
        until,
        everyMinutes: null,
        after: null,
        limit: MOST_IN_FILE + 1,
      }),
    );
    if (rows.length > MOST_IN_FILE) {
      throw invalidParameter(
        'until',
        `There are more than ${MOST_IN_FILE} readings: ask for a shorter time.`,
      );
    }
    if (rows.length === 0) await this.refuseMissing(caller, 'probe', probeId);
    return toCsv(
      rows.map(({ at, meanDeciC }) => ({ at: at.toISOString(), temperatureC: meanDeciC / 10 })),
      ['at', 'temperatureC'],
    );
  }

  private async page(
    caller: ClubCaller,
    place: Place,
    id: string,
    query: ReadingsQuery,
  ): Promise<Page<ReadingResponse>> {
    const { from = null, until = null, everyMinutes = null, limit } = query;
    refuseTurned(query);
    const list = JSON.stringify([caller.clubId, place, id, from, until, everyMinutes]);
    const [at, probeId] = (startOf(query, list) ?? []) as string[];
    const after = at === undefined || probeId === undefined ? null : { at, probeId };
    const rows = await this.database.rows<ReadingRow>(
      readingsQuery(sourceOf(caller, place, id), {
        from,
        until,
        everyMinutes,
        after,
        limit: limit + 1,
      }),
    );
    if (rows.length === 0) await this.refuseMissing(caller, place, id);
    return pageOf(
      rows,
      query,
      list,
      (row) => [row.at.toISOString(), row.probeId],
      toReadingResponse,
    );
  }

  private async refuseMissing({ clubId }: ClubCaller, place: Place, id: string): Promise<void> {
    const table = Prisma.raw(place);
    const found = await this.database.rows(Prisma.sql`
      select 1 from ${table} where club_id = ${clubId}::uuid and id = ${id}::uuid`);
    if (found.length === 0) throw new Refusal('not-found');
  }
}

/** Rows (probe_id, at, temperature_deci_c). */
function sourceOf({ clubId }: ClubCaller, place: Place, id: string): Prisma.Sql {
  switch (place) {
    case 'probe':
      return Prisma.sql`
        select probe_id, at, temperature_deci_c from reading
        where club_id = ${clubId}::uuid and probe_id = ${id}::uuid`;
    case 'station':
      return Prisma.sql`select * from (${placedReadings(clubId)}) r where station_id = ${id}::uuid`;
    case 'batch':
      return Prisma.sql`select * from (${placedReadings(clubId)}) r where batch_id = ${id}::uuid`;
  }
}

/** One for each time. Refuses rows that contradict each other. */
function withoutRepeats(readings: readonly ReadingRequest[]): SentReading[] {
  const byTime = new Map<number, SentReading>();
  readings.forEach(({ at, temperatureC }, row) => {
    const temperatureDeciC = deciOf(temperatureC);
    const same = byTime.get(at.getTime());
    if (same === undefined) {
      byTime.set(at.getTime(), { at: at.toISOString(), temperatureDeciC, row });
    } else if (same.temperatureDeciC !== temperatureDeciC) {
      throw invalidField(
        `#/readings/${row}/temperatureC`,
        `An earlier row says ${same.temperatureDeciC / 10} °C for the same time, ${same.at}.`,
      );
    }
  });
  return [...byTime.values()];
}

function ends(sent: readonly SentReading[]): [firstAt: string, lastAt: string] {
  const times = sent.map(({ at }) => at).sort();
  return [times[0] ?? '', times.at(-1) ?? ''];
}

function refuseTurned({ from, until }: ReadingsFileQuery): void {
  if (from !== undefined && until !== undefined && until.getTime() <= from.getTime()) {
    throw invalidParameter('until', 'until must be after from.');
  }
}
