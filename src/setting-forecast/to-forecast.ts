import type { SettingOutlook } from '../core/setting/forecast/forecast-setting';
import { rounded } from '../reckonings/reckoned';
import { covariateInWords } from './covariate-words';
import { coolRoomInWords } from './forecast-words';
import { dayAfter } from './setting-day';
import type { Forecast, SettingDay } from './setting-forecast.responses';

/** What the core foretells, with the days of the club’s calendar. */
export function toForecast(outlook: SettingOutlook, startsAt: number, timeZone: string): Forecast {
  const day = (days: number | null): SettingDay | null =>
    days === null ? null : dayAfter(startsAt, days, timeZone);
  const { coolRoom, restsOn } = outlook;
  const until = day(coolRoom.days);
  const certaintyPercent = percentOf(coolRoom.certainty);
  const chancePercent = coolRoom.chance === null ? null : percentOf(coolRoom.chance);
  return {
    setBy: outlook.setBy.map(({ certainty, days }) => ({
      certaintyPercent: percentOf(certainty),
      by: day(days),
    })),
    within: outlook.within.map(({ certainty, earliestDays, latestDays }) => ({
      certaintyPercent: percentOf(certainty),
      earliest: day(earliestDays),
      latest: day(latestDays),
    })),
    coolRoom: {
      certaintyPercent,
      until,
      chancePercent,
      inWords: coolRoomInWords(certaintyPercent, until, chancePercent),
    },
    curve: outlook.curve.map(({ days, chance }) => {
      const { days: after, on } = dayAfter(startsAt, days, timeZone);
      return { days: after, on, chancePercent: percentOf(chance) };
    }),
    chanceOfNotSetSoFarPercent: percentOf(outlook.chanceOfNotSetSoFar),
    isOverdue: outlook.isOverdue,
    restsOn: {
      batchCount: restsOn.all.batches,
      setCount: restsOn.all.setCount,
      sameSourceCount: restsOn.ofThisSource?.batches ?? null,
      sameSourceSetCount: restsOn.ofThisSource?.setCount ?? null,
    },
    distributions: outlook.distributions.map(({ distribution, weight }) => ({
      distribution,
      weightPercent: percentOf(weight),
    })),
    covariates: outlook.covariates.map((choice) => ({
      name: choice.trait,
      used: choice.used,
      batchCount: choice.known,
      inWords: covariateInWords(choice),
    })),
  };
}

function percentOf(share: number): number {
  return rounded(100 * share, 1);
}
