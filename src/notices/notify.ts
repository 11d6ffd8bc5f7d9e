import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

/** What a member is to be told of. */
export interface News {
  memberId: string;
  /** Such as booking.cancelled. */
  kind: string;
  /** Names the event: a member is told of it once, however often this is called. */
  event: string;
  subjectId: string;
  /** What the words are made of. */
  details: Record<string, string | number | boolean | null>;
}

/** Tells members of the club, in the transaction that makes it so: what is rolled back is not told. */
export async function notify(
  tx: Transaction,
  clubId: string,
  news: readonly News[],
): Promise<void> {
  if (news.length === 0) return;
  await tx.$executeRaw(Prisma.sql`
    insert into notice (club_id, member_id, kind, event, subject_id, details)
    select ${clubId}::uuid, n.member_id, n.kind, n.event, n.subject_id, n.details
    from jsonb_to_recordset(${JSON.stringify(news.map(toRow))}::jsonb)
      as n (member_id uuid, kind text, event text, subject_id uuid, details jsonb)
    on conflict (club_id, member_id, event) do nothing`);
}

function toRow({ memberId, kind, event, subjectId, details }: News) {
  return { member_id: memberId, kind, event, subject_id: subjectId, details };
}
