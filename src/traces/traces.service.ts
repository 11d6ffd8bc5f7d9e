import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { chooseLots, MOST_LOTS_DRAWN, nearestLots } from '../core/drawing/choose-lots';
import { LineageService } from '../lots/lineage.service';
import type { ClubCaller } from '../platform/caller';
import { ComputingThread } from '../platform/computing-thread';
import { toCsv } from '../platform/csv';
import { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { drawnLineage } from './drawn-lineage';
import type { DrawingTask } from './drawing.worker';
import { toNearLineage, type LotNow, type NearLineageResponse } from './near-lineage.responses';

/** Lineages to look at: near a lot, to walk from lot to lot; on paper, as a drawing and as a table for whoever cannot see it. */
@Injectable()
export class TracesService implements OnApplicationShutdown {
  // Where hundreds of lots and lines find room takes seconds.
  private readonly thread = new ComputingThread<DrawingTask, string>(
    'traces/drawing.worker.js',
    'draw',
    'That lineage is too much to draw: the table (lineage.csv) has all of it.',
  );

  constructor(
    private readonly lineage: LineageService,
    private readonly database: Database,
  ) {}

  async near(
    caller: ClubCaller,
    lotId: string,
    most: number = MOST_LOTS_DRAWN,
  ): Promise<NearLineageResponse> {
    const whole = await this.lineage.whole(caller, lotId);
    const { lots, edges } = drawnLineage(whole);
    const nearest = nearestLots(lots, edges, most);
    const ids = nearest.lots.map(({ id }) => id);
    const now = await this.database.rows<LotNow>(lotsNow(caller.clubId, ids));
    return toNearLineage(whole.lotId, nearest, now);
  }

  async onApplicationShutdown(): Promise<void> {
    await this.thread.end();
  }

  async drawing(caller: ClubCaller, lotId: string): Promise<string> {
    const { lots, edges } = drawnLineage(await this.lineage.whole(caller, lotId));
    const lotsPath = `/api/v1/clubs/${caller.clubId}/lots`;
    return this.thread.run({ chosen: chooseLots(lots, edges), lotsPath });
  }

  async table(caller: ClubCaller, lotId: string): Promise<string> {
    const { items: within } = await this.lineage.ancestors(caller, lotId);
    const { items: into } = await this.lineage.descendants(caller, lotId);
    const rows = [
      ...within.map((lot) => rowOf('ancestor', lot)),
      ...into.map((lot) => rowOf('descendant', lot)),
    ];
    return toCsv(rows, [
      'relation',
      'lotId',
      'code',
      'kind',
      'name',
      'holder',
      'share',
      'shareFraction',
      'massKg',
      'nearestSteps',
      'farthestSteps',
    ]);
  }
}

function lotsNow(clubId: string, ids: readonly string[]): Prisma.Sql {
  return Prisma.sql`
    select l.id, l.remaining_mass_g as "remainingMassG",
      exists (select from hold h where h.club_id = l.club_id and h.released_at is null)
        and exists (select from holds_reaching(l.club_id, l.id)) as "onHold"
    from lot l where l.club_id = ${clubId}::uuid and l.id = any(${ids}::uuid[])`;
}

function rowOf(relation: 'ancestor' | 'descendant', lot: RelatedLot) {
  const { lotId, code, kind, name, share, shareFraction, massKg, nearestSteps, farthestSteps } =
    lot;
  const holder = lot.holder.name;
  const steps = { nearestSteps, farthestSteps };
  return { relation, lotId, code, kind, name, holder, share, shareFraction, massKg, ...steps };
}

type RelatedLot = Awaited<ReturnType<LineageService['ancestors']>>['items'][number];
