import { Inject, Injectable } from '@nestjs/common';
import { Temporal } from '@js-temporal/polyfill';
import { labelText, type LabelUse } from '../core/labels/label-text';
import { placeLabels } from '../core/labels/place-labels';
import { labelsPerPage, SHEETS, type SheetName } from '../core/labels/sheets';
import { invalidParameter, Refusal } from '../core/refusal';
import { holdsReaching, refuseReached, type ReachingHold } from '../holds/refuse-on-hold';
import { LineageService } from '../lots/lineage.service';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { gramsOf, kgOf } from '../platform/fields';
import { settingsToken, type Settings } from '../platform/settings';
import { labelRow, type LabelRow } from './label-row';
import { LabelSettingsService } from './label-settings.service';
import type { LabelQuery } from './labels.requests';
import { printLabels } from './print-labels';

const USUAL_SHEETS: Readonly<Record<LabelUse, SheetName>> = {
  pail: 'a4-2x4',
  tub: 'a4-2x7',
  pot: 'a4-3x7',
};

@Injectable()
export class LabelsService {
  constructor(
    private readonly database: Database,
    private readonly lineage: LineageService,
    private readonly labelSettings: LabelSettingsService,
    @Inject(settingsToken) private readonly settings: Settings,
  ) {}

  async print(
    caller: ClubCaller,
    lotId: string,
    query: LabelQuery,
    reachedAt: string,
  ): Promise<Buffer> {
    const [row] = await this.database.rows<LabelRow>(labelRow(caller.clubId, lotId));
    if (row === undefined) throw new Refusal('not-found');
    const sheetName = query.sheet ?? USUAL_SHEETS[query.for];
    const sheet = SHEETS[sheetName];
    const { start = 1, count = labelsPerPage(sheet) - start + 1 } = query;
    refuseStartBeyond(start, sheetName);
    const holds = await this.database.rows<ReachingHold>(holdsReaching(caller.clubId, [lotId]));
    // Somebody must be able to mark the pail that is put aside; nothing else of what is on hold gets a label.
    if (query.for !== 'pail') refuseReached(caller.clubId, holds);

    const club = await this.labelSettings.of(caller.clubId);
    const countries = new Intl.DisplayNames([club.language, 'en'], { type: 'region' });
    const lot = {
      ...row,
      ...(await this.lineage.makeup(caller, lotId)),
      pottedOn: row.pottedAt === null ? null : dayIn(row.timeZone, row.pottedAt),
      netMassG: netMassG(row, query),
      isOnHold: holds.length > 0,
    };
    const text = labelText(lot, query.for, club, (code) => countries.of(code) ?? code);
    const printed = await printLabels({
      sheet,
      places: placeLabels(sheet, count, start),
      text,
      address: `${this.settings.publicUrl ?? reachedAt}/lots/${row.code}`,
      madeAt: row.createdAt,
    });
    if (printed === 'does not fit') throw doesNotFit(sheetName);
    return printed;
  }
}

function netMassG(row: LabelRow, query: LabelQuery): number | null {
  if (query.netMassKg !== undefined) return gramsOf(query.netMassKg);
  if (query.for !== 'pot') return query.count === 1 ? row.initialMassG : null;
  const [size, ...others] = row.potSizesG;
  if (size === undefined) return null;
  if (others.length === 0) return size;
  const sizes = row.potSizesG.map((massG) => `${kgOf(massG)} kg`).join(', ');
  throw invalidParameter('netMassKg', `The batch was filled into pots of ${sizes}: say which.`);
}

function refuseStartBeyond(start: number, sheetName: SheetName): void {
  const perPage = labelsPerPage(SHEETS[sheetName]);
  if (start > perPage) {
    throw invalidParameter(
      'start',
      `A sheet of ${sheetName} has ${perPage} labels: start there or before.`,
    );
  }
}

function doesNotFit(sheetName: SheetName): Refusal {
  const { labelWidthMm, labelHeightMm } = SHEETS[sheetName];
  return invalidParameter(
    'sheet',
    `The words do not fit on ${labelWidthMm} x ${labelHeightMm} mm in letters that can be read: choose larger labels, such as a4-2x4 or 100x70.`,
  );
}

function dayIn(timeZone: string, at: Date): string {
  return Temporal.Instant.fromEpochMilliseconds(at.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .toString();
}
