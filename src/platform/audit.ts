import type { ClubCaller, PersonCaller } from './caller';
import type { Transaction } from './database';
import type { Prisma } from './prisma-client/client';

/** Files in the club's history who did what, in the transaction that does it. No secret belongs into the details. */
export async function audit(
  tx: Transaction,
  caller: ClubCaller | (PersonCaller & { clubId: string }),
  action: string,
  subjectId: string,
  details: object = {},
): Promise<void> {
  await tx.auditEntry.create({
    data: {
      clubId: caller.clubId,
      personId: caller.personId,
      tokenId: caller.tokenId,
      requestId: caller.requestId,
      action,
      subjectId,
      details: JSON.parse(JSON.stringify(details)) as Prisma.InputJsonObject,
    },
  });
}
