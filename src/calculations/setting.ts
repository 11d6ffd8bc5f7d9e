import { FLORAL_DEFAULTS, type FloralDefault } from '../core/honey/floral-defaults';
import { settingForecast } from '../core/honey/setting-readiness';
import { cautions } from '../core/cautions';
import { reckoned, rounded } from './reckoned';
import type { SettingRequest } from './setting.requests';
import type { SettingIngredient, SettingResponse } from './setting.responses';
import { sent } from './sent';

const basis = {
  method:
    'Glucose over water: below 1.70 slow, above 2.1 fast. Beside it glucose alone (below 29 % slow, above 35 % fast), fructose over glucose ' +
    '(below 1.11 fast, above 1.33 slow) and (glucose − water) / fructose (above 0.42 it sets). Rules of thumb, which often disagree; seed ' +
    'speeds every honey up and changes none of these. What the club’s own batches took is under setting-times.',
  source:
    'White et al. 1962, USDA Technical Bulletin 1261; Manikis & Thrasyvoulou 2001 (thresholds); fructose over glucose: from memory.',
  validRange: 'Glucose 10 to 60 %, fructose 15 to 60 %, water 10 to 30 %.',
  cautions: [cautions.estimates, cautions.infants],
};

/** Whether a honey will set, and how readily. */
export function reckonSetting(request: SettingRequest): SettingResponse {
  const means = meansOf(request.plant);
  const glucosePercent = request.glucosePercent ?? means.glucosePercent;
  const fructosePercent = request.fructosePercent ?? means.fructosePercent;
  const waterPercent = request.moisturePercent ?? means.waterPercent;
  const places = {
    glucosePercent: '#/glucosePercent',
    fructosePercent: '#/fructosePercent',
    waterPercent: '#/moisturePercent',
  };
  const forecast = reckoned(places, () =>
    settingForecast({ glucosePercent, fructosePercent, waterPercent }),
  );
  const ingredient = ingredientsFrom(means);
  return {
    inputs: { ...sent(request), plant: means.plant },
    composition: [
      ingredient('glucose', request.glucosePercent, glucosePercent),
      ingredient('fructose', request.fructosePercent, fructosePercent),
      ingredient('moisture', request.moisturePercent, waterPercent),
    ],
    readiness: forecast.readiness,
    willSet: forecast.willSet === 'in time' ? 'in-time' : forecast.willSet,
    glucoseToWater: rounded(forecast.glucoseToWater, 3),
    fructoseToGlucose: rounded(forecast.fructoseToGlucose, 3),
    surplusGlucose: rounded(forecast.surplusGlucose, 3),
    byGlucose: forecast.byGlucose,
    byFructoseToGlucose: forecast.byFructoseToGlucose ?? null,
    measuresDisagree: forecast.measuresDisagree,
    ...basis,
  };
}

function meansOf(plant = 'any honey'): FloralDefault {
  return FLORAL_DEFAULTS.find((means) => means.plant === plant) as FloralDefault;
}

function ingredientsFrom({ source, status }: FloralDefault) {
  return (
    what: SettingIngredient['what'],
    measured: number | undefined,
    percent: number,
  ): SettingIngredient =>
    measured === undefined
      ? { what, percent, from: 'default', source, status }
      : { what, percent, from: 'measured', source: null, status: null };
}
