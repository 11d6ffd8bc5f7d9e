import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { heatCostOf, type HeatCost } from './heat-cost';
import { heatHistoryRow, type HeatHistoryRow } from './heat-history-row';
import type { HeatHistoryResponse } from './heat-history.responses';
import { toHeatReckoning } from './heat.responses';
import { lineHeatOf } from './line-heat';
import { knownOr, NotKnown } from './reckoned';

const method =
  'Estimated from what a probe in the honey logged while it was loaded, cleared and cooled, or else from the temperatures of those ' +
  'steps, as if they had changed evenly from one to the next. ' +
  'Only the honey of a batch went through its warming; its seed brings along what it went through before. Losses count from when a ' +
  'lot was brought in; storing, softening of seed and batches without temperatures count as none. Diastase: White, Kushnir and ' +
  'Subers 1964. HMF: published bands, which differ widely.';

/** What warming cost the honey in a lot, through all the batches that it comes from. */
@Injectable()
export class HeatHistoryService {
  constructor(private readonly database: Database) {}

  async ofLot(caller: ClubCaller, id: string): Promise<HeatHistoryResponse> {
    const lotId = id.toLowerCase();
    const [row] = await this.database.rows<HeatHistoryRow>(heatHistoryRow(caller.clubId, lotId));
    const lot = row?.lots.find((one) => one.id === lotId);
    if (row === undefined || lot === undefined) throw new Refusal('not-found');

    const found = row.batches.map(({ id: batchId, steps, logged }) => ({
      batchId,
      cost: knownOr(() => heatCostOf(steps, logged)),
    }));
    const costs = new Map<string, HeatCost>();
    for (const { batchId, cost } of found) {
      if (!(cost instanceof NotKnown)) costs.set(batchId, cost);
    }
    const own =
      found.find(({ batchId }) => batchId === lot.batchId)?.cost ??
      new NotKnown('No batch of the club made this lot or put it by.');
    const line = row.lots.some(({ kind }) => kind === 'creamed')
      ? lineHeatOf(row, lotId, costs)
      : new NotKnown('No batch of the club is in this lot.');
    return {
      lotId,
      kind: lot.kind,
      batchId: lot.batchId,
      ownBatch: own instanceof NotKnown ? null : toHeatReckoning(own),
      line: line instanceof NotKnown ? null : line,
      notReckoned: [
        ...(own instanceof NotKnown ? [{ part: 'ownBatch' as const, reason: own.reason }] : []),
        ...(line instanceof NotKnown ? [{ part: 'line' as const, reason: line.reason }] : []),
      ],
      method,
    };
  }
}
