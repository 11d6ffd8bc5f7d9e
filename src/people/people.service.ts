import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { Invitations } from '../invitations/invitations.service';
import type { AnyCaller, PersonCaller } from '../platform/caller';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { Prisma } from '../platform/prisma-client/client';
import { TryLimit } from '../platform/try-limit';
import { hashPassword, isPassword, refuseWeakPassword } from './passwords';
import type { PasswordChange, PersonChange, SignUpRequest } from './people.requests';
import {
  toPersonResponse,
  type PersonResponse,
  type PersonRow,
  type SignUpResponse,
} from './people.responses';

const wrongPassword = 'The current password is another one.';

@Injectable()
export class People {
  /** Somebody at a browser that was left open must not find out the password by trying. */
  private readonly passwordTries: TryLimit;

  constructor(
    private readonly database: Database,
    private readonly invitations: Invitations,
  ) {
    this.passwordTries = new TryLimit(database, 'current-password', 5, 900);
  }

  async signUp(
    caller: AnyCaller,
    address: string,
    request: SignUpRequest,
  ): Promise<SignUpResponse> {
    await refuseWeakPassword(request.password, request, 'password');
    const { name, email, invitationCode } = request;
    const passwordHash = await hashPassword(request.password);

    return this.invitations.whileGuessesLast(address, 'not-allowed', () =>
      this.database.write(caller, async (tx) => {
        if (invitationCode === undefined) {
          await refuseUnlessFirst(tx);
          const person = await tx.person.create({ data: { name, email, passwordHash } });
          return Object.assign(toPersonResponse(person), { clubId: null });
        }
        const invitation = await this.invitations.find(tx, invitationCode);
        if (invitation?.isOpen !== true) {
          throw new Refusal(
            'not-allowed',
            'The invitation code is wrong, used or too old: ask a steward for a new one.',
          );
        }
        const person = await tx.person.create({ data: { name, email, passwordHash } });
        const newcomer = { ...caller, personId: person.id, personName: name };
        const { clubId } = await this.invitations.join(
          tx,
          { ...newcomer, sessionId: null, tokenId: null, scopes: null },
          invitation,
        );
        return Object.assign(toPersonResponse(person), { clubId });
      }),
    );
  }

  async account(caller: PersonCaller): Promise<PersonResponse> {
    const [row] = await this.database.rows<PersonRow>(account(caller));
    return toPersonResponse(found(row));
  }

  async change(caller: PersonCaller, request: PersonChange): Promise<PersonResponse> {
    return this.database.write(caller, async (tx) => {
      const [row] = await tx.$queryRaw<PersonRow[]>(
        Prisma.sql`${account(caller)} for no key update`,
      );
      const person = found(row);
      refuseIfStale(caller, toPersonResponse(person));

      const { name = person.name, mailNotices = person.mailNotices } = request;
      await tx.person.update({ where: { id: person.id }, data: { name, mailNotices } });
      return toPersonResponse({ ...person, name, mailNotices });
    });
  }

  async changePassword(caller: PersonCaller, request: PasswordChange): Promise<PersonResponse> {
    const { currentPassword, newPassword } = request;
    await refuseWeakPassword(newPassword, await this.account(caller), 'newPassword');
    return this.passwordTries.during(caller.personId, 'not-allowed', () =>
      // The passwords are compared within the transaction: a repeat under the same Idempotency-Key must be answered before that.
      this.database.write(caller, async (tx) => {
        const person = found(await tx.person.findUnique({ where: { id: caller.personId } }));
        if (!(await isPassword(currentPassword, person.passwordHash))) {
          throw new Refusal('not-allowed', wrongPassword);
        }

        const passwordHash = await hashPassword(newPassword);
        const { count } = await tx.person.updateMany({
          where: { id: person.id, passwordHash: person.passwordHash },
          data: { passwordHash },
        });
        // Somebody else changed it while this was computed.
        if (count === 0) throw new Refusal('not-allowed', wrongPassword);
        await tx.session.deleteMany({
          where: { personId: person.id, id: { not: caller.sessionId ?? '' } },
        });
        return toPersonResponse(person);
      }),
    );
  }
}

function account({ personId }: PersonCaller): Prisma.Sql {
  return Prisma.sql`select id, name, email, mail_notices as "mailNotices", created_at as "createdAt" from person where id = ${personId}::uuid`;
}

function found<Row>(row: Row | null | undefined): Row {
  if (row === null || row === undefined) throw new Refusal('not-found');
  return row;
}

/** Lets the first person of the installation pass, and of several first ones only one. */
async function refuseUnlessFirst(tx: Transaction): Promise<void> {
  if (!(await hasPeople(tx))) {
    await tx.$executeRaw`select pg_advisory_xact_lock(hashtext('first person'))`;
    if (!(await hasPeople(tx))) return;
  }
  throw new Refusal(
    'not-allowed',
    'Signing up needs an invitation: send the code that a steward of a club gave you as invitationCode.',
  );
}

async function hasPeople(tx: Transaction): Promise<boolean> {
  return (await tx.person.findFirst({ select: { id: true } })) !== null;
}
