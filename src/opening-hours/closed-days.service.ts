import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { ClosedDayQuery, ClosedDayRequest } from './opening-hours.requests';
import type { ClosedDayResponse } from './opening-hours.responses';

const columns = Prisma.sql`id, to_char(day, 'YYYY-MM-DD') as day, reason`;

@Injectable()
export class ClosedDaysService {
  constructor(private readonly database: Database) {}

  async list({ clubId }: ClubCaller, query: ClosedDayQuery): Promise<Page<ClosedDayResponse>> {
    const list = `closed days ${clubId} ${query.from ?? ''}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<ClosedDayResponse>(Prisma.sql`
      select ${columns} from closed_day
      where club_id = ${clubId}::uuid and (${query.from ?? null}::date is null or day >= ${query.from ?? null}::date)
        and (${after}::date is null or day > ${after}::date)
      order by day limit ${query.limit + 1}`);
    return pageOf(
      rows,
      query,
      list,
      (row) => [row.day],
      (row) => row,
    );
  }

  async show({ clubId }: ClubCaller, id: string): Promise<ClosedDayResponse> {
    const [row] = await this.database.rows<ClosedDayResponse>(dayQuery(clubId, id));
    if (row === undefined) throw new Refusal('not-found');
    return row;
  }

  close(caller: ClubCaller, { day, reason }: ClosedDayRequest): Promise<ClosedDayResponse> {
    return this.database.write(caller, async (tx) => {
      const { id } = await tx.closedDay.create({
        data: { clubId: caller.clubId, day: new Date(`${day}T00:00:00Z`), reason },
      });
      await audit(tx, caller, 'closed-day.set', id, { day, reason });
      return { id, day, reason };
    });
  }

  reopen(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const [row] = await tx.$queryRaw<ClosedDayResponse[]>(
        Prisma.sql`${dayQuery(caller.clubId, id)} for update`,
      );
      if (row === undefined) throw new Refusal('not-found');
      refuseIfStale(caller, row);
      await tx.closedDay.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'closed-day.removed', id, { day: row.day });
    });
  }
}

function dayQuery(clubId: string, id: string): Prisma.Sql {
  return Prisma.sql`
    select ${columns} from closed_day where club_id = ${clubId}::uuid and id = ${id}::uuid`;
}
