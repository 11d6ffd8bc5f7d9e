import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { cautionsFor } from './cautions';
import { fermentationOf } from './fermentation-reckoning';
import { heatCostOf } from './heat-cost';
import { toHeatReckoning } from './heat.responses';
import { knownOr, NotKnown } from './reckoned';
import { reckoningRow, type ReckoningRow } from './reckoning-row';
import type { NotReckoned, ReckoningResponse } from './reckonings.responses';
import { honeyOf, seedOf } from './honey-and-seed';
import { grainOf, settingOf } from './setting-reckoning';
import { warmingOf } from './warming-reckoning';

/** What the science of honey has to say of a batch that the club has on record. */
@Injectable()
export class ReckoningsService {
  constructor(private readonly database: Database) {}

  async ofBatch(caller: ClubCaller, batchId: string): Promise<ReckoningResponse> {
    const [row] = await this.database.rows<ReckoningRow>(reckoningRow(caller.clubId, batchId));
    if (row === undefined) throw new Refusal('not-found');

    const { exactPercent, ...honey } = honeyOf(row);
    const notReckoned: NotReckoned[] = [];
    const part = <Part>(name: NotReckoned['part'], work: () => Part | NotKnown): Part | null => {
      const found = knownOr(work);
      if (!(found instanceof NotKnown)) return found;
      notReckoned.push({ part: name, reason: found.reason });
      return null;
    };
    return {
      batchId: row.batchId,
      stage: row.stage,
      creamedLotId: row.creamedLotId,
      honey,
      seed: part('seed', () => seedOf(row)),
      warming: part('warming', () => warmingOf(row, exactPercent)),
      heat: part('heat', () => {
        const cost = heatCostOf(row.steps, row.logged);
        return cost instanceof NotKnown ? cost : toHeatReckoning(cost);
      }),
      fermentation: part('fermentation', () => fermentationOf(exactPercent)),
      setting: part('setting', () => settingOf(row, exactPercent)),
      grain: part('grain', () => grainOf(row)),
      notReckoned,
      cautions: cautionsFor(row),
    };
  }
}
