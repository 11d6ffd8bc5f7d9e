import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller, PersonCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { given } from '../platform/given';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { ClubChange, ClubRequest } from './clubs.requests';
import { toClubResponse, type ClubResponse, type ClubRow } from './clubs.responses';

@Injectable()
export class Clubs {
  constructor(private readonly database: Database) {}

  async found(caller: PersonCaller, request: ClubRequest): Promise<ClubResponse> {
    const { name, timeZone } = request;
    const { personId } = caller;
    return this.database.write(caller, async (tx) => {
      const club = await tx.club.create({
        data: { name, timeZone, members: { create: { personId, role: 'steward' } } },
      });
      await audit(tx, { ...caller, clubId: club.id }, 'club.founded', club.id, { name, timeZone });
      return toClubResponse(club);
    });
  }

  async list(caller: PersonCaller, query: PageQuery): Promise<Page<ClubResponse>> {
    const list = `clubs of ${caller.personId}`;
    const [name = null, id = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<ClubRow>(Prisma.sql`
      ${clubs} where exists (
        select from member m where m.club_id = c.id and m.person_id = ${caller.personId}::uuid and m.left_at is null
      ) and (${name}::text is null or (c.name, c.id) > (${name}::text, ${id}::uuid))
      order by c.name, c.id limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.name, row.id], toClubResponse);
  }

  async one({ clubId }: ClubCaller): Promise<ClubResponse> {
    const [row] = await this.database.rows<ClubRow>(
      Prisma.sql`${clubs} where c.id = ${clubId}::uuid`,
    );
    return toClubResponse(existing(row));
  }

  async change(caller: ClubCaller, request: ClubChange): Promise<ClubResponse> {
    const { clubId } = caller;
    return this.database.write(caller, async (tx) => {
      const [row] = await tx.$queryRaw<ClubRow[]>(
        Prisma.sql`${clubs} where c.id = ${clubId}::uuid for no key update`,
      );
      const club = existing(row);
      refuseIfStale(caller, toClubResponse(club));

      const changed = { ...club, ...given(request) };
      await tx.club.update({ where: { id: clubId }, data: settingsOf(changed) });
      await audit(tx, caller, 'club.changed', clubId, {
        from: settingsOf(club),
        to: settingsOf(changed),
      });
      return toClubResponse(changed);
    });
  }
}

const clubs = Prisma.sql`
  select c.id, c.name, c.time_zone as "timeZone", c.place_days_ahead as "placeDaysAhead", c.offer_minutes as "offerMinutes",
    c.no_show_minutes as "noShowMinutes", c.created_at as "createdAt"
  from club c`;

function settingsOf({ name, timeZone, placeDaysAhead, offerMinutes, noShowMinutes }: ClubRow) {
  return { name, timeZone, placeDaysAhead, offerMinutes, noShowMinutes };
}

function existing(row: ClubRow | undefined): ClubRow {
  if (row === undefined) throw new Refusal('not-found');
  return row;
}
