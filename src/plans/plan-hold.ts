import { rounded } from '../reckonings/reckoned';
import type { SettingForecastService } from '../setting-forecast/setting-forecast.service';
import type { HoneyOfPlan } from './honey-of-plan';
import { HOLD_DAYS_IF_UNKNOWN, USUAL_CERTAINTY_PERCENT } from './plan-assumptions';
import type { PlanHold } from './plans.responses';
import type { PlanRequest } from './plans.requests';
import type { SeedOfPlan } from './seed-of-plan';

/** For how many days the pots stand cool, as the club’s own batches foretell it. */
export async function holdOf(
  forecasts: SettingForecastService,
  clubId: string,
  { certaintyPercent = USUAL_CERTAINTY_PERCENT }: PlanRequest,
  of: { honey: HoneyOfPlan; seed: SeedOfPlan; coolC: number; longestDays: number },
): Promise<PlanHold> {
  const { honey, seed } = of;
  const foretold = await forecasts.coolRoomDays(clubId, {
    certaintyPercent,
    ...(honey.floralParts.size > 0 && { floralSourceId: honey.floralSourceId }),
    temperatureC: of.coolC,
    seedPercent: (100 * seed.massG) / (honey.massG + seed.massG),
    seedGrain: seed.lot.grain,
    moisturePercent: honey.moisturePercent,
    honeyAgeDays: honey.ageDays === null ? null : Math.round(honey.ageDays),
  });
  const days = Math.min(of.longestDays, Math.max(1, foretold.days ?? HOLD_DAYS_IF_UNKNOWN));
  const chancePercent =
    foretold.chancePercent === null || days < (foretold.days ?? Infinity)
      ? null
      : rounded(foretold.chancePercent, 1);
  const { batchCount, sameSourceCount } = foretold;
  return {
    days,
    certaintyPercent,
    chancePercent,
    batchCount,
    sameSourceCount,
    inWords: inWords({ days, chancePercent, batchCount, sameSourceCount }),
  };
}

/** The hold as it is booked, where that is longer than was foretold. */
export function heldFor(foretold: PlanHold, days: number): PlanHold {
  const longer = days - foretold.days;
  if (longer === 0) return foretold;
  const words = longer === 1 ? 'a day' : `${longer} days`;
  const { certaintyPercent, chancePercent, batchCount, sameSourceCount } = foretold;
  return {
    days,
    certaintyPercent,
    chancePercent,
    batchCount,
    sameSourceCount,
    inWords: `${foretold.inWords} It is booked for ${days} days, ${words} longer, so that it ends when you can come.`,
  };
}

function inWords(hold: Omit<PlanHold, 'certaintyPercent' | 'inWords'>): string {
  const { days, chancePercent, batchCount, sameSourceCount } = hold;
  const certainty =
    chancePercent === null
      ? `No day can be named by which it has set: ${days} days are taken.`
      : `The cool room is booked for ${days} ${days === 1 ? 'day' : 'days'}: of 100 batches like this one ${Math.floor(chancePercent)} have set by then.`;
  const restsOn =
    batchCount === 0
      ? 'This rests on no batch of the club yet, but on what is usual, a week to a month (common practice, no source).'
      : `This rests on ${batchCount} ${batchCount === 1 ? 'batch' : 'batches'} of the club${sameSourceCount === null ? '' : `, ${sameSourceCount} of the same floral source`}.`;
  return `${certainty} ${restsOn} Release the places when it has set sooner.`;
}
