import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { Prisma } from '../platform/prisma-client/client';
import type { DayHours, OpeningHoursRequest } from './opening-hours.requests';
import type { OpeningHoursResponse } from './opening-hours.responses';

@Injectable()
export class OpeningHoursService {
  constructor(private readonly database: Database) {}

  async show({ clubId }: ClubCaller): Promise<OpeningHoursResponse> {
    const [row] = await this.database.rows<OpeningHoursResponse>(hoursQuery(clubId));
    return existing(row);
  }

  /** Puts these hours in the place of all that were there. */
  set(caller: ClubCaller, request: OpeningHoursRequest): Promise<OpeningHoursResponse> {
    const { clubId } = caller;
    return this.database.write(caller, async (tx) => {
      await tx.$queryRaw(
        Prisma.sql`select 1 from club where id = ${clubId}::uuid for no key update`,
      );
      const [row] = await tx.$queryRaw<OpeningHoursResponse[]>(hoursQuery(clubId));
      const current = existing(row);
      refuseIfStale(caller, current);
      refuseBadHours(request.hours);

      await tx.openingHours.deleteMany({ where: { clubId } });
      await tx.openingHours.createMany({
        data: request.hours.map(({ weekday, opensMinute, closesMinute }) => ({
          clubId,
          weekday,
          opensMinute,
          closesMinute,
        })),
      });
      const [after] = await tx.$queryRaw<OpeningHoursResponse[]>(hoursQuery(clubId));
      const changed = existing(after);
      await audit(tx, caller, 'opening-hours.set', clubId, {
        from: current.hours,
        to: changed.hours,
      });
      return changed;
    });
  }
}

function hoursQuery(clubId: string): Prisma.Sql {
  return Prisma.sql`
    select c.time_zone as "timeZone", (
      select coalesce(json_agg(json_build_object('weekday', weekday, 'opensMinute', opens_minute, 'closesMinute', closes_minute)
        order by weekday, opens_minute), '[]')
      from opening_hours where club_id = c.id
    ) as hours
    from club c where c.id = ${clubId}::uuid`;
}

function existing(row: OpeningHoursResponse | undefined): OpeningHoursResponse {
  if (row === undefined) throw new Refusal('not-found');
  return row;
}

function refuseBadHours(hours: readonly DayHours[]): void {
  hours.forEach(({ weekday, opensMinute, closesMinute }, index) => {
    if (closesMinute <= opensMinute) {
      throw invalidField(
        `#/hours/${index}/closesMinute`,
        'closesMinute must be later than opensMinute; hours beyond midnight go on at 0 of the next day.',
      );
    }
    const overlaps = hours
      .slice(0, index)
      .some(
        (other) =>
          other.weekday === weekday &&
          other.opensMinute < closesMinute &&
          opensMinute < other.closesMinute,
      );
    if (overlaps) {
      throw invalidField(
        `#/hours/${index}`,
        'It overlaps other hours of the same day: make one of the two.',
      );
    }
  });
}
