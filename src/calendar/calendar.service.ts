import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { calendarRow, type CalendarRow } from './calendar-rows';
import type { CalendarQuery } from './calendar.requests';
import { writeCalendar } from './write-calendar';

@Injectable()
export class CalendarService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async calendar(caller: ClubCaller, { whose }: CalendarQuery): Promise<string> {
    const { clubId, memberId } = caller;
    const [row] = await this.database.rows<CalendarRow>(
      calendarRow(clubId, whose === 'all' ? null : memberId, this.clock.now()),
    );
    if (row === undefined) throw new Refusal('not-found');
    return writeCalendar(row, memberId);
  }
}
