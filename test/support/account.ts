import { randomUUID } from 'node:crypto';
import { hashPassword } from '../../src/people/passwords';
import { Browser } from './browser';
import type { Service } from './service';
import { aSessionCookieOf } from './world';

export interface Account {
  personId: string;
  name: string;
  email: string;
  password: string;
  browser: Browser;
}

/** Somebody with a password, signed in with a browser. */
export async function anAccount(service: Service): Promise<Account> {
  const name = `Person ${randomUUID().slice(0, 8)}`;
  const email = `${randomUUID()}@example.org`;
  const password = `drizzle ${randomUUID()}`;
  const { id } = await service.prisma.person.create({
    data: { name, email, passwordHash: await hashPassword(password) },
  });
  return { personId: id, name, email, password, browser: await aBrowserOf(service, id) };
}

/** A browser of that person, signed in. */
export async function aBrowserOf(service: Service, personId: string): Promise<Browser> {
  return new Browser(service, await aSessionCookieOf(service, personId));
}

/** Gives a password to somebody who has none, to sign in with at the page. */
export async function withAPassword(
  service: Service,
  personId: string,
): Promise<{ email: string; password: string }> {
  const password = 'seven slow bees hum along';
  const { email } = await service.prisma.person.update({
    where: { id: personId },
    data: { passwordHash: await hashPassword(password) },
  });
  return { email, password };
}
