import type { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { addMailJob, mailJob } from './notify';

/** No mail takes that long: whoever took the job died over it. */
const patienceSeconds = 120;
/** What is older would be news no more. */
const newsForDays = 3;

/**
 * Adds the job again for notices whose job was lost with the copy of the service that ran it. One that waits for its next try, or that
 * has failed for good, is left alone.
 */
export async function mailAgain(database: Database, now: Date): Promise<void> {
  await database.rows(Prisma.sql`
    select ${addMailJob(Prisma.sql`n.club_id`, Prisma.sql`n.id`)}
    from notice n
    where n.mail_wanted and n.mailed_at is null
      and n.created_at between ${now}::timestamptz - make_interval(days => ${newsForDays}::int)
        and ${now}::timestamptz - make_interval(secs => ${patienceSeconds}::int)
      and not exists (
        select from graphile_worker.jobs j
        where j.key = ${mailJob}::text || ' ' || n.id
          and (j.locked_at is null or j.locked_at > ${now}::timestamptz - make_interval(secs => ${patienceSeconds}::int)))`);
}
