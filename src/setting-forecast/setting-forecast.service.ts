import { Injectable } from '@nestjs/common';
import { checksToObservation } from '../core/setting/checks-to-observation';
import {
  NO_TRAITS,
  type BatchTraits,
  type ForecastProfile,
} from '../core/setting/forecast/forecast-batch';
import { LATEST_DAYS } from '../core/setting/forecast/predictive';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { seededBatches } from '../setting-times/seeded-batch-rows';
import { askedBatch, seededTraits } from './asked-batch';
import { askedRow, type AskedRow } from './asked-row';
import { clubBatches } from './club-batches';
import { ForecastFits } from './forecast-fits';
import type { SettingForecastQuery } from './setting-forecast.requests';
import type { SettingForecastResponse } from './setting-forecast.responses';
import { toSettingForecastResponse } from './to-response';

const usualCertaintyPercent = 80;
const dayMs = 86_400_000;

/** What a plan asks of the forecast. Null or left out: not known. */
export interface CoolRoomWish extends Partial<BatchTraits> {
  /** What most of the honey is of; null: a mixture; left out: not known. */
  floralSourceId?: string | null;
  /** From 50 to 99; 80 when left out. */
  certaintyPercent?: number;
}

export interface CoolRoomAnswer {
  /** Whole days from stirring in the seed; null: no day can be named. */
  days: number | null;
  certaintyPercent: number;
  /** How likely it is that it has set when they are over. */
  chancePercent: number | null;
  /** The club’s batches behind it, and those of the same floral source. */
  batchCount: number;
  sameSourceCount: number | null;
}

/** When a running batch is expected to have set, in epoch milliseconds; null: not within ten years. */
export interface ExpectedSetting {
  /** As likely before as after. */
  likelyAt: number | null;
  /** By then with 80 percent certainty. */
  almostSurelyAt: number | null;
}

/** When a batch will have set. */
@Injectable()
export class SettingForecastService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly fits: ForecastFits,
  ) {}

  async ofBatch(caller: ClubCaller, query: SettingForecastQuery): Promise<SettingForecastResponse> {
    const { batchId } = query;
    const now = this.clock.now().getTime();
    const withTemperature = batchId !== undefined || query.temperatureC !== undefined;
    const [row, batches] = await Promise.all([
      this.askedRow(caller.clubId, batchId),
      seededBatches(this.database, caller.clubId, { withTemperature }),
    ]);
    const seeded = batches.find((batch) => batch.batchId === batchId);
    const asked = askedBatch(query, row, seeded);
    const observation =
      seeded === undefined ? null : checksToObservation(seeded.checks, seeded.seededAt);

    const outlook = await this.fits.of(clubBatches(batches, batchId), {
      profile: profileOf(asked.traits, asked.floralSourceId),
      notSetByDays: Math.min(LATEST_DAYS, observation?.lower ?? 0),
      todayDays:
        seeded === undefined
          ? null
          : wholeHours(Math.min(LATEST_DAYS, (now - seeded.seededAt) / dayMs)),
      certainty: (query.certaintyPercent ?? usualCertaintyPercent) / 100,
    });

    return toSettingForecastResponse({
      row,
      asked,
      batchId: batchId ?? null,
      isSeeded: seeded !== undefined,
      observation,
      outlook,
    });
  }

  /** For how many days a plan needs the cool room for such a batch. */
  async coolRoomDays(clubId: string, wish: CoolRoomWish): Promise<CoolRoomAnswer> {
    const { floralSourceId, certaintyPercent = usualCertaintyPercent, ...traits } = wish;
    const withTemperature = typeof traits.temperatureC === 'number';
    const batches = await seededBatches(this.database, clubId, { withTemperature });

    const { coolRoom, restsOn } = await this.fits.of(clubBatches(batches, undefined), {
      profile: profileOf({ ...NO_TRAITS, ...traits }, floralSourceId),
      notSetByDays: 0,
      todayDays: null,
      certainty: certaintyPercent / 100,
    });

    return {
      days: coolRoom.days,
      certaintyPercent,
      chancePercent: coolRoom.chance === null ? null : 100 * coolRoom.chance,
      batchCount: restsOn.all.batches,
      sameSourceCount: restsOn.ofThisSource?.batches ?? null,
    };
  }

  /** When these batches are expected to have set; those of which nothing can be said are left out. */
  async expected(
    clubId: string,
    batchIds: readonly string[],
  ): Promise<Map<string, ExpectedSetting>> {
    const found = new Map<string, ExpectedSetting>();
    if (batchIds.length === 0) return found;
    const now = this.clock.now().getTime();
    const [{ sources }, batches] = await Promise.all([
      this.askedRow(clubId, undefined),
      seededBatches(this.database, clubId, { withTemperature: true }),
    ]);
    const running = batches
      .filter(({ batchId }) => batchIds.includes(batchId))
      .map((seeded) => ({ seeded, ...seededTraits(seeded) }))
      .filter(({ floralSourceId }) =>
        sources.every(({ id, sets }) => id !== floralSourceId || sets),
      );
    // One fit to all that is known serves all of them, their own looks among it: many are asked about at once, and one batch more or less
    // hardly moves a day.
    const outlooks = await this.fits
      .ofMany(
        clubBatches(batches, undefined),
        running.map(({ seeded, traits, floralSourceId }) => {
          const seenAt = checksToObservation(seeded.checks, seeded.seededAt);
          return {
            profile: profileOf(traits, floralSourceId),
            notSetByDays: Math.min(LATEST_DAYS, seenAt?.lower ?? 0),
            todayDays: wholeHours(Math.min(LATEST_DAYS, (now - seeded.seededAt) / dayMs)),
            certainty: usualCertaintyPercent / 100,
          };
        }),
      )
      .catch(nothingWhenBusy);
    for (const [index, { seeded }] of running.entries()) {
      const setBy = outlooks[index]?.setBy;
      if (setBy === undefined) continue;
      const atOf = (certainty: number): number | null => {
        const days = setBy.find((one) => one.certainty === certainty)?.days ?? null;
        return days === null ? null : Math.round(seeded.seededAt + days * dayMs);
      };
      found.set(seeded.batchId, { likelyAt: atOf(0.5), almostSurelyAt: atOf(0.8) });
    }
    return found;
  }

  private async askedRow(clubId: string, batchId: string | undefined): Promise<AskedRow> {
    const [row] = await this.database.rows<AskedRow>(askedRow(clubId, batchId));
    if (row === undefined) throw new Refusal('not-found');
    return row;
  }
}

function nothingWhenBusy(error: unknown): [] {
  if (error instanceof Refusal && error.code === 'unavailable') return [];
  throw error;
}

function profileOf(
  traits: BatchTraits,
  floralSourceId: string | null | undefined,
): ForecastProfile {
  const floralSource =
    floralSourceId === undefined
      ? ({ known: false } as const)
      : ({ known: true, name: floralSourceId } as const);
  return { ...traits, floralSource };
}

/** Down to the hour, so that who asks again soon gets the same answer. */
function wholeHours(days: number): number {
  return Math.max(0, Math.floor(days * 24)) / 24;
}
