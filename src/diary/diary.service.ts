import { Injectable } from '@nestjs/common';
import { stateOf } from '../bookings/booking-state';
import { openSpans, type RoomHours } from '../core/planning/open-spans';
import { invalidParameter } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { diaryRows, type DiaryRow } from './diary-rows';
import { mostDays, type DiaryQuery } from './diary.requests';
import {
  mostBookings,
  type DiaryResponse,
  type DiaryStationResponse,
  type OpenSpanResponse,
} from './diary.responses';

const dayMs = 86_400_000;

@Injectable()
export class DiaryService {
  constructor(private readonly database: Database) {}

  async diary({ clubId }: ClubCaller, { from, to }: DiaryQuery): Promise<DiaryResponse> {
    if (to <= from || to.getTime() - from.getTime() > mostDays * dayMs) {
      throw invalidParameter('to', `to must be after from, and at most ${mostDays} days after it.`);
    }
    const rows = await this.database.rows<DiaryRow>(diaryRows(clubId, from, to));
    const toldUntil = leftOutFrom(rows) ?? to.toISOString();
    return {
      from: from.toISOString(),
      toldUntil,
      open: openIn(rows[0]?.room, from, to),
      stations: rows.map((row) => toStation(row, toldUntil)),
    };
  }
}

/** The start of the first booking that is one too many; null: all are told. */
function leftOutFrom(rows: DiaryRow[]): string | null {
  const starts = rows.flatMap(({ bookings }) => bookings.map(({ startsAt }) => startsAt));
  if (starts.length <= mostBookings) return null;
  return starts.reduce((last, start) => (start > last ? start : last));
}

function openIn(room: RoomHours | undefined, from: Date, to: Date): OpenSpanResponse[] {
  if (room === undefined) return [];
  return openSpans(room, from.getTime(), to.getTime()).map(({ startsAt, endsAt }) => ({
    startsAt: new Date(startsAt).toISOString(),
    endsAt: new Date(endsAt).toISOString(),
  }));
}

function toStation(row: DiaryRow, toldUntil: string): DiaryStationResponse {
  const { id, name, places, bookings, closures, dutyWindows } = row;
  return {
    id,
    name,
    places,
    closures,
    dutyWindows,
    bookings: bookings
      .filter(({ startsAt }) => startsAt < toldUntil)
      .map(({ releasedAt, keptUntil, ...booking }) => ({
        ...booking,
        state: stateOf({ cancelledAt: null, releasedAt, keptUntil }),
      })),
  };
}
