import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

/** What a member is to be told of. */
export interface News {
  memberId: string;
  /** Such as booking.cancelled; words.ts has the words for each. */
  kind: string;
  /** Names the event: a member is told of it once, however often this is called. */
  event: string;
  subjectId: string;
  /** What the words are made of. */
  details: Record<string, string | number | boolean | null>;
}

/** The job that mails one notice. */
export const mailJob = 'mail-notice';

export interface MailJob {
  clubId: string;
  noticeId: string;
}

/** With growing pauses these tries take about a day. */
export const mailTries = 12;

/**
 * Tells members of the club, in the transaction that makes it so: what is rolled back is neither told nor mailed. Mailed is to whom
 * wishes it now.
 */
export async function notify(
  tx: Transaction,
  clubId: string,
  news: readonly News[],
): Promise<void> {
  if (news.length === 0) return;
  await tx.$queryRaw(Prisma.sql`
    with told as (
      insert into notice (club_id, member_id, kind, event, subject_id, details, mail_wanted)
      select ${clubId}::uuid, n.member_id, n.kind, n.event, n.subject_id, n.details, m.left_at is null and p.mail_notices
      from jsonb_to_recordset(${JSON.stringify(news.map(toRow))}::jsonb)
        as n (member_id uuid, kind text, event text, subject_id uuid, details jsonb)
      join member m on m.club_id = ${clubId}::uuid and m.id = n.member_id
      join person p on p.id = m.person_id
      on conflict (club_id, member_id, event) do nothing
      returning club_id, id, mail_wanted
    )
    select ${addMailJob(Prisma.sql`told.club_id`, Prisma.sql`told.id`)} from told where mail_wanted`);
}

/** Adds the job for a notice, or puts it in the place of one that was there. */
export function addMailJob(clubId: Prisma.Sql, noticeId: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`(graphile_worker.add_job(${mailJob}::text,
    json_build_object('clubId', ${clubId}, 'noticeId', ${noticeId}), max_attempts => ${mailTries}::int,
    job_key => ${mailJob}::text || ' ' || ${noticeId})).id::text`;
}

function toRow({ memberId, kind, event, subjectId, details }: News) {
  return { member_id: memberId, kind, event, subject_id: subjectId, details };
}
