import { Injectable } from '@nestjs/common';
import {
  DEFAULT_LABEL_SETTINGS,
  DEFAULT_LABEL_WORDS,
  type LabelSettings,
  type LabelWords,
} from '../core/labels/label-settings';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { centiOf, deciOf } from '../platform/fields';
import { given } from '../platform/given';
import { Prisma } from '../platform/prisma-client/client';
import type { LabelSettingsChange } from './label-settings.requests';
import { toLabelSettingsResponse, type LabelSettingsResponse } from './label-settings.responses';

@Injectable()
export class LabelSettingsService {
  constructor(private readonly database: Database) {}

  async one(caller: ClubCaller): Promise<LabelSettingsResponse> {
    return toLabelSettingsResponse(caller.clubId, await this.of(caller.clubId));
  }

  async of(clubId: string): Promise<LabelSettings> {
    const [row] = await this.database.rows<SettingsRow>(settingsRow(clubId));
    return settingsOf(row);
  }

  async change(caller: ClubCaller, request: LabelSettingsChange): Promise<LabelSettingsResponse> {
    const { clubId } = caller;
    return this.database.write(caller, async (tx) => {
      // A club may have no row yet to lock.
      await tx.$queryRaw`select from club where id = ${clubId}::uuid for no key update`;
      const [row] = await tx.$queryRaw<SettingsRow[]>(settingsRow(clubId));
      const before = settingsOf(row);
      refuseIfStale(caller, toLabelSettingsResponse(clubId, before));

      const { singleSourcePercent, quantityHeightMm, words, ...same } = request;
      const changed = {
        ...given(same),
        ...(singleSourcePercent !== undefined && {
          singleSourceCentiPercent: centiOf(singleSourcePercent),
        }),
        ...(quantityHeightMm !== undefined && { quantityHeightTenthMm: deciOf(quantityHeightMm) }),
        words: { ...before.words, ...given(words ?? {}) },
      };
      await tx.labelSettings.upsert({
        where: { clubId },
        create: { clubId, ...changed },
        update: changed,
      });
      await audit(tx, caller, 'label-settings.changed', clubId, request);
      return toLabelSettingsResponse(clubId, { ...before, ...changed });
    });
  }
}

type SettingsRow = Omit<LabelSettings, 'words'> & { words: Partial<LabelWords> };

function settingsRow(clubId: string): Prisma.Sql {
  return Prisma.sql`
    select producer, single_source_centi_percent as "singleSourceCentiPercent", origins::text as origins,
      best_before_months as "bestBeforeMonths", e_mark as "eMark", quantity_height_tenth_mm as "quantityHeightTenthMm", language, words
    from label_settings where club_id = ${clubId}::uuid`;
}

function settingsOf(row: SettingsRow | undefined): LabelSettings {
  if (row === undefined) return DEFAULT_LABEL_SETTINGS;
  return { ...row, words: { ...DEFAULT_LABEL_WORDS, ...row.words } };
}
