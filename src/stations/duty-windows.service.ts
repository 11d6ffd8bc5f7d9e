import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { given } from '../platform/given';
import type { Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty } from '../platform/prisma-client/enums';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import type { DutyWindowChange, DutyWindowQuery, DutyWindowRequest } from './duty-windows.requests';
import {
  toDutyWindowResponse,
  type DutyWindowResponse,
  type DutyWindowRow,
} from './duty-windows.responses';
import { pageOfSpans } from './page-of-spans';
import { StationsService } from './stations.service';

const selectWindows = Prisma.sql`
  select id, station_id as "stationId", duty, starts_at as "startsAt", ends_at as "endsAt", note from duty_window`;

@Injectable()
export class DutyWindowsService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  async list(
    caller: ClubCaller,
    stationId: string,
    query: DutyWindowQuery,
  ): Promise<Page<DutyWindowResponse>> {
    await this.stations.show(caller, stationId);
    const spans = { name: 'duty windows', select: selectWindows, toItem: toDutyWindowResponse };
    return pageOfSpans(this.database, spans, caller.clubId, stationId, query);
  }

  async show(caller: ClubCaller, stationId: string, id: string): Promise<DutyWindowResponse> {
    const [row] = await this.database.rows<DutyWindowRow>(
      windowQuery(caller.clubId, stationId, id),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toDutyWindowResponse(row);
  }

  set(
    caller: ClubCaller,
    stationId: string,
    request: DutyWindowRequest,
  ): Promise<DutyWindowResponse> {
    return this.database.write(caller, async (tx) => {
      await this.stations.lock(tx, caller.clubId, stationId);
      const wanted = { note: '', ...given(request) } as Wanted;
      await refuseUnlessPossible(tx, caller, stationId, wanted);
      const made = await tx.dutyWindow.create({
        data: { clubId: caller.clubId, stationId, ...columnsOf(wanted), setById: caller.memberId },
      });
      await audit(tx, caller, 'duty-window.set', made.id, { stationId, ...columnsOf(wanted) });
      return toDutyWindowResponse(made);
    });
  }

  change(
    caller: ClubCaller,
    stationId: string,
    id: string,
    change: DutyWindowChange,
  ): Promise<DutyWindowResponse> {
    return this.database.write(caller, async (tx) => {
      const current = await this.lockAndRead(tx, caller, stationId, id);
      refuseIfStale(caller, toDutyWindowResponse(current));
      const wanted = { ...current, ...given(change) };
      await refuseUnlessPossible(tx, caller, stationId, wanted, id);
      const changed = await tx.dutyWindow.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: columnsOf(wanted),
      });
      await audit(tx, caller, 'duty-window.changed', id, {
        stationId,
        from: columnsOf(current),
        to: columnsOf(wanted),
      });
      await offerFreedTimes(tx, caller, stationId, this.clock.now());
      return toDutyWindowResponse(changed);
    });
  }

  remove(caller: ClubCaller, stationId: string, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const current = await this.lockAndRead(tx, caller, stationId, id);
      refuseIfStale(caller, toDutyWindowResponse(current));
      await tx.dutyWindow.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'duty-window.removed', id, { stationId, ...columnsOf(current) });
      await offerFreedTimes(tx, caller, stationId, this.clock.now());
    });
  }

  private async lockAndRead(
    tx: Transaction,
    caller: ClubCaller,
    stationId: string,
    id: string,
  ): Promise<DutyWindowRow> {
    await this.stations.lock(tx, caller.clubId, stationId);
    const [row] = await tx.$queryRaw<DutyWindowRow[]>(windowQuery(caller.clubId, stationId, id));
    if (row === undefined) throw new Refusal('not-found');
    return row;
  }
}

interface Wanted {
  duty: Duty;
  startsAt: Date;
  endsAt: Date;
  note: string;
}

function columnsOf({ duty, startsAt, endsAt, note }: Wanted): Wanted {
  return { duty, startsAt, endsAt, note };
}

function windowQuery(clubId: string, stationId: string, id: string): Prisma.Sql {
  return Prisma.sql`
    ${selectWindows}
    where club_id = ${clubId}::uuid and station_id = ${stationId}::uuid and id = ${id}::uuid`;
}

async function refuseUnlessPossible(
  tx: Transaction,
  { clubId }: ClubCaller,
  stationId: string,
  { duty, startsAt, endsAt }: Wanted,
  exceptId?: string,
): Promise<void> {
  if (endsAt <= startsAt) throw invalidField('#/endsAt', 'endsAt must be after startsAt.');
  const duties = await tx.stationDuty.findMany({
    where: { clubId, stationId, retiredAt: null },
    orderBy: { duty: 'asc' },
  });
  if (!duties.some((one) => one.duty === duty)) {
    const words = duties.map((one) => one.duty).join(', ');
    throw invalidField('#/duty', `The station does not serve "${duty}"; it serves ${words}.`);
  }
  const overlaps = { startsAt: { lt: endsAt }, endsAt: { gt: startsAt } };
  const other = await tx.dutyWindow.findFirst({
    where: {
      clubId,
      stationId,
      ...overlaps,
      ...(exceptId !== undefined && { id: { not: exceptId } }),
    },
    orderBy: { startsAt: 'asc' },
  });
  if (other !== null) {
    throw invalidField(
      '#/startsAt',
      `From ${other.startsAt.toISOString()} until ${other.endsAt.toISOString()} the station has a duty window already: change that one, or leave its time out.`,
    );
  }
  const inTheWay = await tx.booking.findMany({
    where: { clubId, stationId, active: true, duty: { not: duty }, ...overlaps },
    orderBy: { startsAt: 'asc' },
    take: 200,
  });
  if (inTheWay.length > 0) {
    throw new Refusal(
      'station-booked',
      `Bookings of another duty are in the way, the last of them until ${lastEnd(inTheWay).toISOString()}. Move or cancel them first, or choose another time.`,
      { offers: { bookings: inTheWay.map(({ id }) => id) } },
    );
  }
}

function lastEnd(bookings: readonly { endsAt: Date }[]): Date {
  return new Date(Math.max(...bookings.map(({ endsAt }) => endsAt.getTime())));
}
