import { Injectable } from '@nestjs/common';
import { refuseFuture } from '../core/refuse-future';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { given } from '../platform/given';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { listedProbeColumns, lockProbe, probeQuery, readProbe } from './probe-rows';
import type { ProbeChange, ProbeRequest } from './probes.requests';
import {
  toListedProbeResponse,
  toProbeResponse,
  type ListedProbeResponse,
  type ListedProbeRow,
  type ProbePlacementResponse,
  type ProbeResponse,
  type ProbeRow,
} from './probes.responses';

/** Where a probe is to be: one of the two is given. */
interface Spot {
  stationId: string | null;
  batchId: string | null;
}

@Injectable()
export class ProbesService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: PageQuery): Promise<Page<ListedProbeResponse>> {
    const list = `probes of ${caller.clubId}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<ListedProbeRow>(Prisma.sql`
      select ${listedProbeColumns} from probe p
      where p.club_id = ${caller.clubId}::uuid and (${after}::text is null or p.name > ${after}::text)
      order by p.name limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.name], toListedProbeResponse);
  }

  async show(caller: ClubCaller, id: string): Promise<ProbeResponse> {
    const [row] = await this.database.rows<ProbeRow>(probeQuery(caller.clubId, id));
    if (row === undefined) throw new Refusal('not-found');
    return toProbeResponse(row);
  }

  putIn(caller: ClubCaller, request: ProbeRequest): Promise<ProbeResponse> {
    const now = this.clock.now();
    const { name, note, placedAt = now } = request;
    const spot = spotOf(request);
    if (spot === null) throw notOneSpot();
    refuseFuture('#/placedAt', placedAt, now);
    return this.database.write(caller, async (tx) => {
      await refuseUnknownSpot(tx, caller, spot);
      const { id } = await tx.probe.create({ data: { clubId: caller.clubId, name, note } });
      await place(tx, caller, id, spot, placedAt);
      await audit(tx, caller, 'probe.put-in', id, { name, ...spot, at: placedAt });
      return readProbe(tx, caller.clubId, id);
    });
  }

  change(caller: ClubCaller, id: string, change: ProbeChange): Promise<ProbeResponse> {
    const { name, note, movedAt } = change;
    const isMoved = change.stationId !== undefined || change.batchId !== undefined;
    return this.database.write(caller, async (tx) => {
      await lockProbe(tx, caller.clubId, id);
      const current = await readProbe(tx, caller.clubId, id);
      refuseIfStale(caller, current);

      if (movedAt !== undefined) {
        if (!isMoved) throw invalidField('#/movedAt', 'Say where it was moved, too.');
        refuseFuture('#/movedAt', movedAt, this.clock.now());
      }
      if (isMoved) {
        const spot = spotOf(change);
        if (spot !== null) await refuseUnknownSpot(tx, caller, spot);
        await this.move(tx, caller, current, spot, movedAt);
      }
      await tx.probe.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: given({ name, note }),
      });
      await audit(tx, caller, 'probe.changed', id, change);
      return readProbe(tx, caller.clubId, id);
    });
  }

  strikeOff(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      await lockProbe(tx, caller.clubId, id);
      const current = await readProbe(tx, caller.clubId, id);
      refuseIfStale(caller, current);
      if (current.readings > 0) {
        throw new Refusal(
          'in-use',
          'Its readings are on record and stay there. A probe that is no longer used is taken out: change it with stationId null.',
        );
      }

      await tx.probe.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'probe.struck-off', id, { name: current.name });
    });
  }

  /** Ends where the probe is and begins where it is to be; null: nowhere. */
  private async move(
    tx: Transaction,
    caller: ClubCaller,
    { id, placement, placements }: ProbeResponse,
    spot: Spot | null,
    movedAt: Date | undefined,
  ): Promise<void> {
    if (isIn(placement, spot)) return;
    const at = movedAt ?? this.clock.now();
    const pointer = movedAt === undefined ? '#' : '#/movedAt';
    if (placement !== null) {
      if (at.getTime() <= Date.parse(placement.startsAt)) {
        throw invalidField(
          pointer,
          `It must be moved after it came to ${placement.name}, ${placement.startsAt}.`,
        );
      }
      await tx.probePlacement.updateMany({
        where: { clubId: caller.clubId, probeId: id, endsAt: null },
        data: { endsAt: at },
      });
    }
    const [last] = placements;
    if (placement === null && last?.endsAt != null && at.getTime() < Date.parse(last.endsAt)) {
      throw invalidField(pointer, `Until ${last.endsAt} it was in ${last.name}.`);
    }
    if (spot !== null) await place(tx, caller, id, spot, at);
  }
}

function spotOf({ stationId, batchId }: ProbeRequest | ProbeChange): Spot | null {
  if (stationId != null && batchId != null) throw notOneSpot();
  if (stationId == null && batchId == null) return null;
  return { stationId: stationId ?? null, batchId: batchId ?? null };
}

function notOneSpot(): Refusal {
  return invalidField('#', 'Say where the probe is: stationId or batchId, one of the two.');
}

function isIn(placement: ProbePlacementResponse | null, spot: Spot | null): boolean {
  if (placement === null || spot === null) return placement === spot;
  const { stationId, batchId } = placement;
  return (
    stationId === (spot.stationId?.toLowerCase() ?? null) &&
    batchId === (spot.batchId?.toLowerCase() ?? null)
  );
}

async function place(
  tx: Transaction,
  { clubId }: ClubCaller,
  probeId: string,
  { stationId, batchId }: Spot,
  startsAt: Date,
): Promise<void> {
  await tx.probePlacement.create({ data: { clubId, probeId, stationId, batchId, startsAt } });
}

async function refuseUnknownSpot(
  tx: Transaction,
  { clubId }: ClubCaller,
  { stationId, batchId }: Spot,
): Promise<void> {
  const [found] = await tx.$queryRaw<unknown[]>(Prisma.sql`
    select 1 from station where club_id = ${clubId}::uuid and id = ${stationId}::uuid and retired_at is null
    union all select 1 from batch where club_id = ${clubId}::uuid and id = ${batchId}::uuid`);
  if (found !== undefined) return;
  throw stationId === null
    ? invalidField('#/batchId', 'The club has no such batch.')
    : invalidField('#/stationId', 'The club has no such station.');
}
