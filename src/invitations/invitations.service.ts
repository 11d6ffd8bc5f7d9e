import { Injectable } from '@nestjs/common';
import { Refusal, type RefusalCode } from '../core/refusal';
import { notify } from '../notices/notify';
import { audit } from '../platform/audit';
import type { ClubCaller, PersonCaller } from '../platform/caller';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { Role } from '../platform/prisma-client/enums';
import { hashSecret } from '../platform/secrets';
import { networkOf, TryLimit } from '../platform/try-limit';
import { newInvitationCode, readInvitationCode } from './invitation-code';
import type { InvitationRequest } from './invitations.requests';
import {
  toInvitationResponse,
  type InvitationResponse,
  type InvitationRow,
  type JoinedClub,
  type NewInvitation,
} from './invitations.responses';

/** An invitation as whoever holds its code finds it, locked. */
export interface FoundInvitation {
  id: string;
  clubId: string;
  clubName: string;
  role: Role;
  invitedById: string;
  isOpen: boolean;
}

@Injectable()
export class Invitations {
  /** Wrong codes from one address, at signing up and at accepting together. */
  private readonly guesses: TryLimit;

  constructor(private readonly database: Database) {
    this.guesses = new TryLimit(database, 'invitation-guess', 60, 900);
  }

  async invite(caller: ClubCaller, request: InvitationRequest): Promise<NewInvitation> {
    const { clubId } = caller;
    const { role, expiresInDays } = request;
    const code = newInvitationCode();
    return this.database.write(caller, async (tx) => {
      const [made] = await tx.$queryRaw<{ id: string }[]>`
        insert into invitation (club_id, code_hash, role, invited_by_id, expires_at)
        values (${clubId}::uuid, ${hashOf(code)}, ${role}::role, ${caller.memberId}::uuid,
          now() + make_interval(days => ${expiresInDays}::int))
        returning id`;
      const [row] = await tx.$queryRaw<InvitationRow[]>(invitations(caller, made?.id ?? null));
      const invitation = toInvitationResponse(found(row));
      await audit(tx, caller, 'invitation.made', invitation.id, { role, expiresInDays });
      return Object.assign(invitation, { code });
    });
  }

  async list(caller: ClubCaller, query: PageQuery): Promise<Page<InvitationResponse>> {
    const list = `invitations of ${caller.clubId}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<InvitationRow>(Prisma.sql`
      ${invitations(caller, null)} and (${after}::uuid is null or id < ${after}::uuid)
      order by id desc limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.id], toInvitationResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<InvitationResponse> {
    const [row] = await this.database.rows<InvitationRow>(invitations(caller, id));
    return toInvitationResponse(found(row));
  }

  async withdraw(caller: ClubCaller, id: string): Promise<void> {
    await this.database.write(caller, async (tx) => {
      const [row] = await tx.$queryRaw<InvitationRow[]>(
        Prisma.sql`${invitations(caller, id)} for update`,
      );
      const invitation = toInvitationResponse(found(row));
      refuseIfStale(caller, invitation);
      if (invitation.acceptedAt !== null) {
        throw new Refusal(
          'invitation-over',
          'Somebody has accepted it; a member can be removed instead.',
        );
      }

      await tx.invitation.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'invitation.withdrawn', id);
    });
  }

  async accept(caller: PersonCaller, address: string, code: string): Promise<JoinedClub> {
    return this.whileGuessesLast(address, 'not-found', () =>
      this.database.write(caller, async (tx) => {
        const invitation = found(await this.find(tx, code));
        if (!invitation.isOpen) throw new Refusal('invitation-over');
        return this.join(tx, caller, invitation);
      }),
    );
  }

  /** Runs the work unless too many wrong codes came from that address. A wrong code is what the work refuses with `wrongCode`. */
  whileGuessesLast<Answer>(
    address: string,
    wrongCode: RefusalCode,
    work: () => Promise<Answer>,
  ): Promise<Answer> {
    return this.guesses.during(networkOf(address), wrongCode, work);
  }

  /** The invitation of that code, locked: of two who accept at once, one finds it used. */
  async find(tx: Transaction, typed: string): Promise<FoundInvitation | null> {
    const code = readInvitationCode(typed);
    if (code === null) return null;
    const [row] = await tx.$queryRaw<FoundInvitation[]>`
      select i.id, i.club_id as "clubId", c.name as "clubName", i.role, i.invited_by_id as "invitedById",
        i.accepted_at is null and i.expires_at > now() as "isOpen"
      from invitation i join club c on c.id = i.club_id
      where i.code_hash = ${hashOf(code)} for update of i`;
    return row ?? null;
  }

  /** Makes the person a member of the club, or a member again. */
  async join(
    tx: Transaction,
    caller: PersonCaller,
    { id, clubId, clubName, role, invitedById }: FoundInvitation,
  ): Promise<JoinedClub> {
    const clubId_personId = { clubId, personId: caller.personId };
    // Of two invitations into one club, accepted at once by one person, the second finds the member that the first made.
    await tx.$queryRaw`select id from person where id = ${caller.personId}::uuid for no key update`;
    const before = await tx.member.findUnique({ where: { clubId_personId } });
    if (before?.leftAt === null) throw new Refusal('already-member');
    const member = await tx.member.upsert({
      where: { clubId_personId },
      update: { role, leftAt: null },
      create: { ...clubId_personId, role },
    });
    await tx.invitation.update({
      where: { clubId_id: { clubId, id } },
      data: { acceptedAt: new Date(), acceptedById: member.id },
    });
    const action = before === null ? 'member.joined' : 'member.rejoined';
    await audit(tx, { ...caller, clubId }, action, member.id, { role, invitationId: id });
    // Who had left and comes back by an invitation of their own need not be told.
    if (invitedById !== member.id) {
      await notify(tx, clubId, [
        {
          memberId: invitedById,
          kind: 'invitation.accepted',
          event: `invitation.accepted ${id}`,
          subjectId: member.id,
          details: { name: caller.personName, role },
        },
      ]);
    }
    return { clubId, clubName, memberId: member.id, role };
  }
}

/** 80 bits that end within 30 days: a plain hash outlasts them. */
function hashOf(code: string): Uint8Array<ArrayBuffer> {
  return hashSecret(readInvitationCode(code) ?? '');
}

/** The club's invitations, or the one with that id. */
function invitations({ clubId }: ClubCaller, id: string | null): Prisma.Sql {
  return Prisma.sql`
    select id, role, invited_by_id as "invitedById", created_at as "createdAt", expires_at as "expiresAt",
      accepted_at as "acceptedAt", accepted_by_id as "acceptedById"
    from invitation where club_id = ${clubId}::uuid and (${id}::uuid is null or id = ${id}::uuid)`;
}

function found<Row>(row: Row | null | undefined): Row {
  if (row === null || row === undefined) throw new Refusal('not-found');
  return row;
}
