import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

/** On whose club, and on which request or job, time is freed: what the history names. A ClubCaller is one. */
export interface Freeing {
  clubId: string;
  requestId: string;
}

/** Files in the club's history what the service did for a member who was not asking just then: the entry stands in the member's name. */
export async function noteInHistory(
  tx: Transaction,
  { clubId, requestId }: Freeing,
  memberId: string,
  action: string,
  subjectId: string,
  details: object,
): Promise<void> {
  await tx.$executeRaw(Prisma.sql`
    insert into audit_entry (club_id, person_id, request_id, action, subject_id, details)
    select m.club_id, m.person_id, ${requestId}, ${action}, ${subjectId}::uuid, ${JSON.stringify(details)}::jsonb
    from member m where m.club_id = ${clubId}::uuid and m.id = ${memberId}::uuid`);
}
