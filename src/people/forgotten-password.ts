import type { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { hashPassword, newPassphrase } from './passwords';

/** Gives the person of that e-mail a new password and ends their sessions; null: nobody has that e-mail. Tokens stay as they are. */
export async function giveNewPassword(database: Database, email: string): Promise<string | null> {
  const password = await newPassphrase();
  const passwordHash = await hashPassword(password);
  const [person] = await database.rows(Prisma.sql`
    with changed as (
      update person set password_hash = ${passwordHash} where email = ${email.toLowerCase()} returning id
    ), ended as (
      delete from session using changed where person_id = changed.id
    )
    select id from changed`);
  return person === undefined ? null : password;
}
