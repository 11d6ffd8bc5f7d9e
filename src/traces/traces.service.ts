import { Injectable } from '@nestjs/common';
import { drawLineage } from '../core/lineage/drawing/draw-lineage';
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
      ...within.map((lot) => ({ relation: 'ancestor', ...lot, holder: lot.holder.name })),
      ...into.map((lot) => ({ relation: 'descendant', ...lot, holder: lot.holder.name })),
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
