import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { MemberChange } from './members.requests';
import { toMemberResponse, type MemberResponse, type MemberRow } from './members.responses';

@Injectable()
export class Members {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: PageQuery): Promise<Page<MemberResponse>> {
    const list = `members of ${caller.clubId}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<MemberRow>(Prisma.sql`
      ${members(caller, null)} and (${after}::uuid is null or m.id > ${after}::uuid)
      order by m.id limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.id], toMemberResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<MemberResponse> {
    const [row] = await this.database.rows<MemberRow>(members(caller, id));
    return toMemberResponse(found(row));
  }

  async changeRole(
    caller: ClubCaller,
    id: string,
    { role }: MemberChange,
  ): Promise<MemberResponse> {
    const { clubId } = caller;
    return this.database.write(caller, async (tx) => {
      const member = await locked(tx, caller, id);
      refuseIfStale(caller, toMemberResponse(member));
      if (member.leftAt !== null) throw new Refusal('not-found', 'That member has left the club.');
      if (role === member.role) return toMemberResponse(member);
      if (role === 'member') await refuseIfLastSteward(tx, caller);

      await tx.member.update({ where: { clubId_id: { clubId, id } }, data: { role } });
      await audit(tx, caller, 'member.role-changed', id, { from: member.role, to: role });
      return toMemberResponse({ ...member, role });
    });
  }

  /** Ends the membership; from then on neither session nor token of that person finds the club. */
  async leave(caller: ClubCaller, id: string): Promise<void> {
    const { clubId } = caller;
    await this.database.write(caller, async (tx) => {
      const member = await locked(tx, caller, id);
      if (id.toLowerCase() !== caller.memberId && caller.role !== 'steward')
        throw new Refusal('not-yours');
      refuseIfStale(caller, toMemberResponse(member));
      if (member.leftAt !== null) return;
      if (member.role === 'steward') await refuseIfLastSteward(tx, caller);

      await tx.member.update({
        where: { clubId_id: { clubId, id } },
        data: { leftAt: this.clock.now() },
      });
      await audit(tx, caller, id === caller.memberId ? 'member.left' : 'member.removed', id);
    });
  }
}

/** The club's members, or the one with that id. */
function members({ clubId }: ClubCaller, id: string | null): Prisma.Sql {
  return Prisma.sql`
    select m.id, p.name, m.role, m.joined_at as "joinedAt", m.left_at as "leftAt"
    from member m join person p on p.id = m.person_id
    where m.club_id = ${clubId}::uuid and (${id}::uuid is null or m.id = ${id}::uuid)`;
}

/** The member, with the club locked: of two stewards who go at once, the second sees that the first is gone. */
async function locked(tx: Transaction, caller: ClubCaller, id: string): Promise<MemberRow> {
  await tx.$queryRaw`select id from club where id = ${caller.clubId}::uuid for no key update`;
  const [row] = await tx.$queryRaw<MemberRow[]>(
    Prisma.sql`${members(caller, id)} for no key update of m`,
  );
  return found(row);
}

async function refuseIfLastSteward(tx: Transaction, { clubId }: ClubCaller): Promise<void> {
  const stewards = await tx.member.count({ where: { clubId, role: 'steward', leftAt: null } });
  if (stewards < 2) {
    throw new Refusal(
      'last-steward',
      'Make another member a steward first: a club keeps at least one.',
    );
  }
}

function found(row: MemberRow | undefined): MemberRow {
  if (row === undefined) throw new Refusal('not-found');
  return row;
}
