import { Injectable } from '@nestjs/common';
import { stateOf } from '../bookings/booking-state';
import { invalidParameter } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { diaryRows, type DiaryRow } from './diary-rows';
import { mostDays, type DiaryQuery } from './diary.requests';
import { mostBookings, type DiaryResponse, type DiaryStationResponse } from './diary.responses';

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

function toStation(row: DiaryRow, toldUntil: string): DiaryStationResponse {
  return {
    ...row,
    bookings: row.bookings
      .filter(({ startsAt }) => startsAt < toldUntil)
      .map(({ releasedAt, keptUntil, ...booking }) => ({
        ...booking,
        state: stateOf({ cancelledAt: null, releasedAt, keptUntil }),
      })),
  };
}
