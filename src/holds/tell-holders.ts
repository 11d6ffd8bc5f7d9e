import { notify } from '../notices/notify';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { holdRows, reachedRows, type HoldRow, type ReachedRow } from './hold-rows';

/** The hold, and the lots that it reaches now; null when there is none of that id. */
export async function readHold(
  tx: Transaction,
  clubId: string,
  holdId: string,
): Promise<{ row: HoldRow; reached: ReachedRow[] } | null> {
  const [row] = await tx.$queryRaw<HoldRow[]>(
    holdRows(clubId, Prisma.sql`h.id = ${holdId}::uuid`, 1),
  );
  if (row === undefined) return null;
  return { row, reached: await tx.$queryRaw<ReachedRow[]>(reachedRows(clubId, holdId)) };
}

/** Tells every holder of those lots what became of the hold: each once an event, with how many of their lots it is about. */
export async function tellHolders(
  tx: Transaction,
  clubId: string,
  what: { kind: 'hold.placed' | 'hold.released'; event: string; hold: HoldRow; because: string },
  lots: readonly ReachedRow[],
): Promise<void> {
  const lotsOf = new Map<string, number>();
  for (const { holderId } of lots) lotsOf.set(holderId, (lotsOf.get(holderId) ?? 0) + 1);
  const { id, lotId, lotName } = what.hold;
  const byName = what.kind === 'hold.placed' ? what.hold.placedByName : releaserOf(what.hold);
  await notify(
    tx,
    clubId,
    [...lotsOf].map(([memberId, count]) => ({
      memberId,
      kind: what.kind,
      event: what.event,
      subjectId: id,
      details: { lotId, lotName, byName, because: what.because, lots: count },
    })),
  );
}

function releaserOf({ releasedByName, branches }: HoldRow): string {
  return releasedByName ?? branches.at(-1)?.releasedByName ?? '';
}

/** Tells whoever holds a lot that open holds reach now, and was not told yet: after a correction of what went into what. */
export async function tellNewHolders(
  tx: Transaction,
  clubId: string,
  lotId: string,
): Promise<void> {
  const reaching = await tx.$queryRaw<{ id: string }[]>(
    Prisma.sql`select id from holds_reaching(${clubId}::uuid, ${lotId}::uuid) id`,
  );
  for (const { id } of reaching) {
    const hold = await readHold(tx, clubId, id);
    if (hold === null) continue;
    const what = { kind: 'hold.placed' as const, event: placedEvent(id), because: hold.row.reason };
    await tellHolders(tx, clubId, { ...what, hold: hold.row }, hold.reached);
  }
}

export function placedEvent(holdId: string): string {
  return `hold.placed ${holdId}`;
}
