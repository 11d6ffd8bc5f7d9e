import type { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

/** A plan that nobody booked is of no use a day after it expired; whoever asks for it until then is told that it has. */
export async function forgetExpiredPlans(database: Database, now: Date): Promise<void> {
  await database.rows(Prisma.sql`
    delete from plan where booked_at is null and expires_at < ${now}::timestamptz - interval '1 day'`);
}
