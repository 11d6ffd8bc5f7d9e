import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { networkOf, TryLimit, type Tries } from '../platform/try-limit';

const knownForDays = 90;

/** One try to sign in. */
export interface SignInTry {
  /** How many failures are left to this account from this address. */
  tries: Tries;
  /** Null: the password may be looked at. */
  waitSeconds: number | null;
  /** To be called when the password was right: the try does not count, and the address is known from now on. */
  succeed(): Promise<Tries>;
}

/**
 * Slows down whoever guesses passwords, without handing them a way to shut somebody out (OWASP ASVS 5.0, 6.3.1 and 6.1.1). Failures are
 * counted three ways:
 *
 * - account and address: 5 in 15 minutes. It stops the ordinary guesser, and costs somebody at another address nothing.
 * - address: 100 in an hour, over all accounts. It stops one machine that tries a few passwords on everybody.
 * - account: 50 in an hour, over all addresses. It stops many machines that try one account. It does not count for, and does not stop,
 *   an address from which this account was signed in to during the last 90 days: so whoever fails on purpose, from however many places,
 *   never keeps a member out of their usual places.
 *
 * E-mails that nobody has are counted like the others, so a refusal does not tell which exist. E-mail and address are kept as hashes,
 * in PostgreSQL: all copies of the service share the counts.
 */
@Injectable()
export class SignInThrottle {
  readonly accountAtAddress: TryLimit;
  private readonly address: TryLimit;
  private readonly account: TryLimit;

  constructor(private readonly database: Database) {
    this.accountAtAddress = new TryLimit(database, 'sign-in', 5, 900);
    this.address = new TryLimit(database, 'sign-in-address', 100, 3600);
    this.account = new TryLimit(database, 'sign-in-account', 50, 3600);
  }

  /** Takes a try before the password is looked at. */
  async take(email: string, address: string): Promise<SignInTry> {
    const network = networkOf(address);
    const pair = digest(`${email} ${network}`);
    const [tries, atAddress] = await Promise.all([
      this.accountAtAddress.take(pair),
      this.address.take(digest(network)),
    ]);
    const taken = [tries, atAddress];
    const isStranger = !taken.some(isOver) && !(await this.isKnown(pair));
    if (isStranger) taken.push(await this.account.take(digest(email)));

    return {
      tries,
      waitSeconds: taken.some(isOver)
        ? Math.max(tries.secondsToNext, ...taken.filter(isOver).map((one) => one.secondsToNext))
        : null,
      succeed: async () => {
        const [left] = await Promise.all([
          this.accountAtAddress.giveBack(pair),
          this.address.giveBack(digest(network)),
          isStranger ? this.account.giveBack(digest(email)) : null,
          this.makeKnown(pair),
        ]);
        return left;
      },
    };
  }

  private async isKnown(pair: string): Promise<boolean> {
    const known = await this.database.rows(
      Prisma.sql`select 1 from rate_limit where key = ${knownKey(pair)} and expire > ${Date.now()}`,
    );
    return known.length > 0;
  }

  private async makeKnown(pair: string): Promise<void> {
    const until = Date.now() + knownForDays * 86_400_000;
    await this.database.rows(Prisma.sql`
      insert into rate_limit (key, expire) values (${knownKey(pair)}, ${until})
      on conflict (key) do update set expire = excluded.expire`);
  }
}

function isOver(tries: Tries): boolean {
  return tries.isOver;
}

function knownKey(pair: string): string {
  return `sign-in-known:${pair}`;
}

function digest(text: string): string {
  return createHash('sha256').update(text).digest('base64url');
}
