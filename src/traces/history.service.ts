import { Inject, Injectable } from '@nestjs/common';
import { epcisDocument, type EpcisDocument } from '../core/epcis/epcis-document';
import { urnOf } from '../core/epcis/epcis-event';
import { historyEvents } from '../core/epcis/history-events';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { settingsToken, type Settings } from '../platform/settings';
import { historyRow, toHistory, type HistoryRow } from './history-row';
import { nameUuid } from './name-uuid';

/** Tells a lot's history in the words of an open standard, for whoever the honey goes to. */
@Injectable()
export class HistoryService {
  constructor(
    private readonly database: Database,
    @Inject(settingsToken) private readonly settings: Settings,
  ) {}

  async document(caller: ClubCaller, id: string, reachedAt: string): Promise<EpcisDocument> {
    const lotId = id.toLowerCase();
    const [row] = await this.database.rows<HistoryRow>(historyRow(caller.clubId, lotId));
    if (row === undefined || !row.lots.some((lot) => lot.id === lotId)) {
      throw new Refusal('not-found');
    }
    const idOf = (name: string): string => nameUuid(row.clubId, name);
    const vocabulary = `${this.settings.publicUrl ?? reachedAt}/api/docs#`;
    const events = historyEvents(toHistory(row), idOf);
    return epcisDocument(events, urnOf(idOf(`history of ${lotId}`)), vocabulary);
  }
}
