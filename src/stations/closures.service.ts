import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { given } from '../platform/given';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import { waitAgain } from '../waiting/wait-again';
import type { ClosureChange, ClosureQuery, ClosureRequest } from './stations.requests';
import { toClosureResponse, type ClosureResponse, type ClosureRow } from './stations.responses';
import { StationsService } from './stations.service';

const closureColumns = Prisma.sql`
  id, station_id as "stationId", starts_at as "startsAt", ends_at as "endsAt", reason`;

@Injectable()
export class ClosuresService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  async list(
    caller: ClubCaller,
    stationId: string,
    query: ClosureQuery,
  ): Promise<Page<ClosureResponse>> {
    await this.stations.show(caller, stationId);
    const list = `closures ${stationId} ${query.from?.toISOString() ?? ''}`;
    const [startsAt, id] = startOf(query, list) ?? [null, null];
    const rows = await this.database.rows<ClosureRow>(Prisma.sql`
      select ${closureColumns} from closure
      where club_id = ${caller.clubId}::uuid and station_id = ${stationId}::uuid
        and (${query.from ?? null}::timestamptz is null or ends_at > ${query.from ?? null}::timestamptz)
        and (${id}::uuid is null or (starts_at, id) > (${startsAt}::timestamptz, ${id}::uuid))
      order by starts_at, id limit ${query.limit + 1}`);
    return pageOf(
      rows,
      query,
      list,
      (row) => [row.startsAt.toISOString(), row.id],
      toClosureResponse,
    );
  }

  async show(caller: ClubCaller, stationId: string, id: string): Promise<ClosureResponse> {
    const [row] = await this.database.rows<ClosureRow>(closureQuery(caller.clubId, stationId, id));
    if (row === undefined) throw new Refusal('not-found');
    return toClosureResponse(row);
  }

  close(caller: ClubCaller, stationId: string, request: ClosureRequest): Promise<ClosureResponse> {
    refuseBadSpan(request);
    return this.database.write(caller, async (tx) => {
      await this.stations.lock(tx, caller.clubId, stationId);
      await clearTheWay(tx, caller, stationId, request);
      const made = await tx.closure.create({
        data: {
          clubId: caller.clubId,
          stationId,
          startsAt: request.startsAt,
          endsAt: request.endsAt,
          reason: request.reason,
          closedById: caller.memberId,
        },
      });
      await audit(tx, caller, 'station.closed', stationId, {
        closureId: made.id,
        reason: request.reason,
      });
      // What was cancelled for it may have lasted longer than it does.
      await offerFreedTimes(tx, caller, stationId, this.clock.now());
      return toClosureResponse(made);
    });
  }

  change(
    caller: ClubCaller,
    stationId: string,
    id: string,
    change: ClosureChange,
  ): Promise<ClosureResponse> {
    return this.database.write(caller, async (tx) => {
      const current = await this.lockAndRead(tx, caller, stationId, id);
      refuseIfStale(caller, toClosureResponse(current));
      const wanted = { ...current, ...given(change) };
      refuseBadSpan(wanted);
      await clearTheWay(tx, caller, stationId, wanted);
      const changed = await tx.closure.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: { startsAt: wanted.startsAt, endsAt: wanted.endsAt, reason: wanted.reason },
      });
      await audit(tx, caller, 'closure.changed', id, { stationId });
      await offerFreedTimes(tx, caller, stationId, this.clock.now());
      return toClosureResponse(changed);
    });
  }

  reopen(caller: ClubCaller, stationId: string, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const current = await this.lockAndRead(tx, caller, stationId, id);
      refuseIfStale(caller, toClosureResponse(current));
      await tx.closure.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'station.reopened', stationId, { closureId: id });
      await offerFreedTimes(tx, caller, stationId, this.clock.now());
    });
  }

  private async lockAndRead(
    tx: Transaction,
    caller: ClubCaller,
    stationId: string,
    id: string,
  ): Promise<ClosureRow> {
    await this.stations.lock(tx, caller.clubId, stationId);
    const [row] = await tx.$queryRaw<ClosureRow[]>(closureQuery(caller.clubId, stationId, id));
    if (row === undefined) throw new Refusal('not-found');
    return row;
  }
}

function closureQuery(clubId: string, stationId: string, id: string): Prisma.Sql {
  return Prisma.sql`
    select ${closureColumns} from closure
    where club_id = ${clubId}::uuid and station_id = ${stationId}::uuid and id = ${id}::uuid`;
}

/** Cancels the bookings that are in the way if the steward said so; otherwise tells which they are. */
async function clearTheWay(
  tx: Transaction,
  caller: ClubCaller,
  stationId: string,
  { startsAt, endsAt, cancelBookings }: { startsAt: Date; endsAt: Date; cancelBookings?: boolean },
): Promise<void> {
  const inTheWay = await tx.booking.findMany({
    where: {
      clubId: caller.clubId,
      stationId,
      active: true,
      startsAt: { lt: endsAt },
      endsAt: { gt: startsAt },
    },
    orderBy: { startsAt: 'asc' },
  });
  if (inTheWay.length === 0) return;
  if (cancelBookings !== true) {
    throw new Refusal(
      'station-booked',
      `${inTheWay.length} bookings are in the way. Choose another time, or send cancelBookings: true.`,
      { offers: { bookings: inTheWay.map(({ id }) => id) } },
    );
  }
  await tx.booking.updateMany({
    where: { clubId: caller.clubId, id: { in: inTheWay.map(({ id }) => id) } },
    data: { active: false, cancelledAt: new Date() },
  });
  await waitAgain(
    tx,
    caller.clubId,
    inTheWay.map(({ id }) => id),
  );
  for (const { id } of inTheWay)
    await audit(tx, caller, 'booking.cancelled', id, { for: 'closure' });
}

function refuseBadSpan({ startsAt, endsAt }: { startsAt: Date; endsAt: Date }): void {
  if (endsAt.getTime() <= startsAt.getTime()) {
    throw invalidField('#/endsAt', 'endsAt must be after startsAt.');
  }
}
