import { chooseCovariates } from '../core/setting/forecast/choose-covariates';
import type { ForecastBatch } from '../core/setting/forecast/forecast-batch';
import { fitForecastModel, type ForecastModel } from '../core/setting/forecast/forecast-model';
import {
  forecastSetting,
  usedTraits,
  type ForecastAsked,
  type SettingOutlook,
} from '../core/setting/forecast/forecast-setting';

// Runs in a thread of its own. It loads nothing but the computing: no framework, no database.

export interface ForecastTask {
  batches: readonly ForecastBatch[];
  /** Of the batches: equal for equal ones alone. */
  batchesKey: string;
  asked: readonly ForecastAsked[];
}

const mostKept = 20;
const models = new Map<string, ForecastModel>();

/** The fit is nearly all of the work, and serves every batch of which the same is known. */
export function forecast({ batches, batchesKey, asked }: ForecastTask): SettingOutlook[] {
  return asked.map((one) => forecastSetting(batches, one, modelFor(batches, batchesKey, one)));
}

function modelFor(
  batches: readonly ForecastBatch[],
  batchesKey: string,
  asked: ForecastAsked,
): ForecastModel {
  const traits = usedTraits(chooseCovariates(batches, asked.profile));
  const key = [batchesKey, ...traits].join();
  const model = models.get(key) ?? fitForecastModel(batches, traits);
  // The one used last stands last.
  models.delete(key);
  models.set(key, model);
  for (const oldest of models.keys()) {
    if (models.size <= mostKept) break;
    models.delete(oldest);
  }
  return model;
}
