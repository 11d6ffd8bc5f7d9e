import { Injectable } from '@nestjs/common';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { SettingForecastService } from '../setting-forecast/setting-forecast.service';
import { diariesOf } from '../stations/free-elsewhere';
import type { StationDiary } from '../stations/station-diary';
import { overstayRows, type OverstayRow } from './overstay-rows';
import type { OverstayResponse } from './overstays.responses';
import { toOverstayResponse } from './to-overstay';
import { wayOut } from './way-out';

const dayMs = 86_400_000;
const daysAhead = 60;
/** The longest booking: an overstay may have begun so long ago, and its whole time is looked at. */
const daysBack = 121;

/** Honey that is still there after its time: whose it is, who waits for the places, and what can be done. */
@Injectable()
export class OverstaysService {
  constructor(
    private readonly database: Database,
    private readonly forecast: SettingForecastService,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: PageQuery): Promise<Page<OverstayResponse>> {
    const { clubId } = caller;
    const now = this.clock.now();
    const list = `overstays ${clubId}`;
    const start = startOf(query, list);
    const later =
      start === null
        ? Prisma.empty
        : Prisma.sql`and (b.ends_at, b.id) > (${start[0]}::timestamptz, ${start[1]}::uuid)`;
    const rows = await this.database.rows<OverstayRow>(
      overstayRows(now, Prisma.sql`b.club_id = ${clubId}::uuid ${later}`, query.limit + 1),
    );
    const page = pageOf(
      rows,
      query,
      list,
      (row) => [row.endsAt.toISOString(), row.bookingId],
      (row) => row,
    );

    const until = new Date(now.getTime() + daysAhead * dayMs);
    const diaries = new Map<string, StationDiary[]>();
    const items: OverstayResponse[] = [];
    for (const row of page.items) {
      const ofDuty = diaries.get(row.duty) ?? (await this.diaries(clubId, row.duty, now, until));
      diaries.set(row.duty, ofDuty);
      const likelyUntil = await this.likelyUntil(caller, row);
      const times = {
        now: now.getTime(),
        until: until.getTime(),
        likelyUntil: likelyUntil?.getTime() ?? null,
      };
      items.push(toOverstayResponse(row, likelyUntil, wayOut(row, ofDuty, times)));
    }
    return { ...page, items };
  }

  private diaries(clubId: string, duty: string, now: Date, until: Date): Promise<StationDiary[]> {
    const from = new Date(now.getTime() - daysBack * dayMs);
    return diariesOf((query) => this.database.rows(query), clubId, duty, from, until);
  }

  /** By when a batch that is setting has likely set. */
  private async likelyUntil(
    caller: ClubCaller,
    { batchId, isSeeded, setAt, stage }: OverstayRow,
  ): Promise<Date | null> {
    if (batchId === null || !isSeeded || setAt !== null || stage === 'abandoned') return null;
    const { forecast } = await this.forecast.ofBatch(caller, { batchId });
    const until = forecast?.coolRoom.until;
    return until ? new Date(until.at) : null;
  }
}
