import { Injectable } from '@nestjs/common';
import { placeDaysAhead } from '../core/planning/place-days';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { twoDecimals } from './fair-share';
import type { FairShareResponse } from './fair-shares.responses';

interface ShareRow {
  memberId: string;
  memberName: string;
  mostPlaceDays: number | null;
  bookings: { startsAt: number; endsAt: number; places: number }[];
}

@Injectable()
export class FairSharesService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list({ clubId }: ClubCaller, query: PageQuery): Promise<Page<FairShareResponse>> {
    const list = `fair shares ${clubId}`;
    const [name = null, id = null] = startOf(query, list) ?? [];
    const now = this.clock.now();
    const rows = await this.database.rows<ShareRow>(Prisma.sql`
      select m.id as "memberId", p.name as "memberName", c.place_days_ahead as "mostPlaceDays",
        (select coalesce(json_agg(json_build_object(
           'startsAt', round(extract(epoch from b.starts_at) * 1000), 'endsAt', round(extract(epoch from b.ends_at) * 1000),
           'places', (select count(*) from booking_place h where h.club_id = b.club_id and h.booking_id = b.id))), '[]')
         from booking b
         where b.club_id = m.club_id and b.member_id = m.id and b.active and b.kept_until is null and b.ends_at > ${now}) as bookings
      from member m join person p on p.id = m.person_id join club c on c.id = m.club_id
      where m.club_id = ${clubId}::uuid and m.left_at is null
        and (${id}::uuid is null or (p.name, m.id) > (${name}, ${id}::uuid))
      order by p.name, m.id limit ${query.limit + 1}`);
    return pageOf(
      rows,
      query,
      list,
      (row) => [row.memberName, row.memberId],
      ({ memberId, memberName, mostPlaceDays, bookings }) => ({
        memberId,
        memberName,
        bookedPlaceDays: twoDecimals(placeDaysAhead(bookings, now.getTime())),
        mostPlaceDays,
      }),
    );
  }
}
