import { putOnPlaces } from '../bookings/put-on-places';
import { keptInOrder, type KeptTime } from '../core/planning/next-in-line';
import { notify } from '../notices/notify';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { diaryQuery, toDiary, type DiaryRow, type StationDiary } from '../stations/station-diary';
import { noteInHistory, type Freeing } from './history';
import { lapseOffers } from './lapse-offers';
import { lineOf, type WishInLine } from './waiting-rows';

/**
 * Offers what is free at the station to those who wait for it, in their order: who fits gets a booking that is kept until it is taken
 * or its deadline passes, and is told. Call it in every transaction that frees time, after the change and with the station locked.
 */
export async function offerFreedTimes(
  tx: Transaction,
  by: Freeing,
  stationId: string,
  now: Date,
): Promise<void> {
  const { clubId } = by;
  await lapseOffers(tx, by, stationId, now);
  const line = await tx.$queryRaw<WishInLine[]>(lineOf(clubId, stationId, now));
  const [first] = line;
  if (first === undefined) return;

  const until = new Date(Math.max(...line.map(({ notAfter }) => notAfter)));
  const [row] = await tx.$queryRaw<DiaryRow[]>(diaryQuery(clubId, stationId, now, until));
  if (row === undefined) return;
  const diary = toDiary(stationId, row);
  const { offerMinutes } = first;
  for (const kept of keptInOrder(diary.times, line, { now: now.getTime(), offerMinutes })) {
    const wish = line.find(({ id }) => id === kept.wishId);
    if (wish !== undefined) await keep(tx, by, diary, wish, kept);
  }
}

async function keep(
  tx: Transaction,
  by: Freeing,
  diary: StationDiary,
  wish: WishInLine,
  kept: KeptTime,
): Promise<void> {
  const { clubId } = by;
  const { stationId } = diary;
  const startsAt = new Date(kept.startsAt);
  const endsAt = new Date(kept.endsAt);
  const keptUntil = new Date(kept.keptUntil);
  const { id } = await tx.booking.create({
    data: {
      clubId,
      stationId,
      duty: wish.duty,
      memberId: wish.memberId,
      batchId: wish.batchId,
      minDeciC: wish.minDeciC,
      maxDeciC: wish.maxDeciC,
      startsAt,
      endsAt,
      changeoverMinutes: diary.times.changeoverMinutes,
      note: wish.note,
      keptForId: wish.id,
      keptUntil,
    },
    select: { id: true },
  });
  await putOnPlaces(tx, { clubId, bookingId: id, stationId, startsAt, endsAt }, kept.placeIds);
  await tx.$executeRaw(Prisma.sql`
    update waiting_wish set state = 'offered' where club_id = ${clubId}::uuid and id = ${wish.id}::uuid`);
  await noteInHistory(tx, by, wish.memberId, 'booking.made', id, { keptFor: wish.id, keptUntil });
  await notify(tx, clubId, [
    {
      memberId: wish.memberId,
      kind: 'waiting.offered',
      event: `waiting.offered ${id}`,
      subjectId: wish.id,
      details: {
        bookingId: id,
        stationName: diary.name,
        startsAt: startsAt.toISOString(),
        endsAt: endsAt.toISOString(),
        places: wish.places,
        keptUntil: keptUntil.toISOString(),
      },
    },
  ]);
}
