import { Injectable } from '@nestjs/common';
import { invalidParameter } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { adjusters, asksTemperature, sameAs, type Question } from './answer/question';
import { seededBatchText } from './seeded-batch-rows';
import { SettingFits } from './setting-fits';
import { settingTimesCsv } from './setting-times-csv';
import type { SettingTimesQuery, SettingTimesTableQuery } from './setting-times.requests';
import type { SettingTimesResponse } from './setting-times.responses';

@Injectable()
export class SettingTimesService {
  constructor(
    private readonly database: Database,
    private readonly fits: SettingFits,
  ) {}

  /** The batches are read every time; what was computed from the same ones is kept. */
  async times(caller: ClubCaller, query: SettingTimesQuery): Promise<SettingTimesResponse> {
    const { from, until } = query;
    const question = questionOf(query);
    const text = await seededBatchText(this.database, caller.clubId, {
      from,
      until,
      withTemperature: asksTemperature(question),
    });
    return this.fits.answer(text, question);
  }

  /** One table of the same answer, as a file. */
  async table(caller: ClubCaller, query: SettingTimesTableQuery): Promise<string> {
    const { table = 'groups' } = query;
    if (table.startsWith('adjusted') && query.adjust === undefined) {
      throw invalidParameter('adjust', 'Nothing is adjusted without adjust: say what for.');
    }
    return settingTimesCsv(await this.times(caller, query), table);
  }
}

function questionOf({ by = 'floralSource', adjust = [] }: SettingTimesQuery): Question {
  const same = sameAs[by];
  if (same !== undefined && adjust.includes(same)) {
    throw invalidParameter(
      'adjust',
      `The groups go by ${same} already: leave it out of adjust, or group by something else.`,
    );
  }
  return { by, adjust: adjusters.filter((adjuster) => adjust.includes(adjuster)) };
}
