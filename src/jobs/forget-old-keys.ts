import type { Database } from '../platform/database';
import { keysKeptForHours } from '../platform/idempotency';
import { Prisma } from '../platform/prisma-client/client';

/** Kept answers to requests with an Idempotency-Key are kept for a day. */
export async function forgetOldKeys(database: Database, now: Date): Promise<void> {
  await database.rows(Prisma.sql`
    delete from idempotency_key where created_at < ${now}::timestamptz - make_interval(hours => ${keysKeptForHours}::int)`);
}
