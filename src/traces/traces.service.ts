import { Injectable } from '@nestjs/common';
import { drawLineage } from '../core/drawing/draw-lineage';
import { LineageService } from '../lots/lineage.service';
import type { ClubCaller } from '../platform/caller';
import { toCsv } from '../platform/csv';
import { drawnLineage } from './drawn-lineage';

/** Lineages on paper: as a drawing, and as a table for whoever cannot see it. */
@Injectable()
export class TracesService {
  constructor(private readonly lineage: LineageService) {}

  async drawing(caller: ClubCaller, lotId: string): Promise<string> {
    const { lots, edges } = drawnLineage(await this.lineage.whole(caller, lotId));
    return drawLineage(lots, edges, ({ id }) => `/api/v1/clubs/${caller.clubId}/lots/${id}`);
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

function rowOf(relation: 'ancestor' | 'descendant', lot: RelatedLot) {
  const { lotId, code, kind, name, share, shareFraction, massKg, nearestSteps, farthestSteps } =
    lot;
  const holder = lot.holder.name;
  const steps = { nearestSteps, farthestSteps };
  return { relation, lotId, code, kind, name, holder, share, shareFraction, massKg, ...steps };
}

type RelatedLot = Awaited<ReturnType<LineageService['ancestors']>>['items'][number];
