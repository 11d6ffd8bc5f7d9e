import { cautions } from '../core/cautions';
import type { SettingOutlook } from '../core/setting/forecast/forecast-setting';
import type { SettingObservation } from '../core/setting/observation';
import { rounded } from '../reckonings/reckoned';
import type { AskedBatch } from './asked-batch';
import type { AskedRow } from './asked-row';
import { cautionsOf, forecastInWords, method } from './forecast-words';
import { dayAfter, dayInWords } from './setting-day';
import type {
  ForecastInputs,
  Outlook,
  SeenSet,
  SettingForecastResponse,
} from './setting-forecast.responses';
import { toForecast } from './to-forecast';

export interface ForecastParts {
  row: AskedRow;
  asked: AskedBatch;
  batchId: string | null;
  isSeeded: boolean;
  /** What the looks at a seeded batch tell; null: nothing. */
  observation: SettingObservation | null;
  outlook: SettingOutlook;
}

export function toSettingForecastResponse(parts: ForecastParts): SettingForecastResponse {
  const { row, asked, batchId, observation, outlook } = parts;
  const { startsAt, startsAtFrom, floralSourceId = null, traits } = asked;
  const source = row.sources.find(({ id }) => id === floralSourceId);
  const sourceName = source?.name ?? null;
  const state = stateOf(parts, source);
  const day = (days: number) => dayAfter(startsAt, days, row.timeZone);
  const lower = observation?.lower ?? 0;
  const lastLook = lower > 0 ? day(lower) : null;
  const common = {
    outlook: state,
    batchId,
    floralSourceId,
    floralSourceName: sourceName,
    startsAt: new Date(startsAt).toISOString(),
    startsAtFrom,
    lastLook,
    inputs: inputsOf(asked),
    method,
  };
  if (state === 'planned' || state === 'setting') {
    const forecast = toForecast(outlook, startsAt, row.timeZone);
    return {
      ...common,
      forecast,
      set: null,
      inWords: forecastInWords(forecast, lastLook, sourceName),
      cautions: cautionsOf({
        outlook,
        traits,
        sourceName,
        listedAsNotSetting: source?.sets === false,
      }),
    };
  }
  const upper = observation?.upper ?? null;
  const set = state === 'set' && upper !== null ? { after: day(lower), by: day(upper) } : null;
  return {
    ...common,
    forecast: null,
    set,
    inWords: set === null ? noForecastInWords(state, sourceName) : setInWords(set),
    cautions: set === null ? [cautions.estimates] : [],
  };
}

/** A source that the list says does not set is believed to set once batches of it have been seen set. */
function stateOf(
  { row, batchId, isSeeded, observation, outlook }: ForecastParts,
  source: { sets: boolean } | undefined,
): Outlook {
  if (observation !== null && observation.upper !== null) return 'set';
  if (batchId !== null && row.batch?.isAbandoned === true) return 'abandoned';
  const seenSet = outlook.restsOn.ofThisSource?.setCount ?? 0;
  if (source?.sets === false && seenSet === 0) return 'does-not-set';
  return isSeeded ? 'setting' : 'planned';
}

function inputsOf({ traits, temperatureFrom }: AskedBatch): ForecastInputs {
  const known = (value: number | null, decimals: number) =>
    value === null ? null : rounded(value, decimals);
  const { temperatureC, seedPercent, seedGrain, moisturePercent, honeyAgeDays } = traits;
  return {
    temperature:
      temperatureC === null || temperatureFrom === null
        ? null
        : { temperatureC: rounded(temperatureC, 1), from: temperatureFrom },
    seedPercent: known(seedPercent, 2),
    seedGrain,
    moisturePercent: known(moisturePercent, 2),
    honeyAgeDays: known(honeyAgeDays, 1),
  };
}

function setInWords({ after, by }: SeenSet): string {
  return after.days === 0
    ? `It had set when somebody first looked, on ${dayInWords(by.on)} (day ${rounded(by.days, 1)}).`
    : `It set between ${dayInWords(after.on)} (day ${rounded(after.days, 1)}) and ${dayInWords(by.on)} (day ${rounded(by.days, 1)}).`;
}

function noForecastInWords(state: Outlook, sourceName: string | null): string {
  return state === 'abandoned'
    ? 'The batch was abandoned before it was seen set: there is nothing to forecast.'
    : `The club’s list of floral sources says that ${sourceName} does not set, and no batch of it has been seen set. ` +
        'If you expect it to with seed, change the list, or look at a trial.';
}
