import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { TraitName } from '../core/setting/forecast/choose-covariates';
import type { ForecastBatch } from '../core/setting/forecast/forecast-batch';
import { fitForecastModel, type ForecastModel } from '../core/setting/forecast/forecast-model';

const MOST_KEPT = 50;

/** Fits models, and keeps them by what they were fitted to: a new look, or one struck out, makes another. */
@Injectable()
export class ForecastFits {
  private readonly kept = new Map<string, Promise<ForecastModel>>();

  of(batches: readonly ForecastBatch[], traits: readonly TraitName[]): Promise<ForecastModel> {
    const key = createHash('sha256')
      .update(JSON.stringify([batches, traits]))
      .digest('base64');
    const found = this.kept.get(key);
    const model = found ?? fitted(batches, traits);
    // The one used last stands last.
    this.kept.delete(key);
    this.kept.set(key, model);
    if (found === undefined) model.catch(() => this.kept.delete(key));
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= MOST_KEPT) break;
      this.kept.delete(oldest);
    }
    return model;
  }
}

/** A call over plain data, so that it can be made elsewhere. */
async function fitted(
  batches: readonly ForecastBatch[],
  traits: readonly TraitName[],
): Promise<ForecastModel> {
  await new Promise((resolve) => setImmediate(resolve));
  return fitForecastModel(batches, traits);
}
