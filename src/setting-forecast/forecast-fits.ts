import path from 'node:path';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import Piscina from 'piscina';
import type { ForecastBatch } from '../core/setting/forecast/forecast-batch';
import type { ForecastAsked, SettingOutlook } from '../core/setting/forecast/forecast-setting';
import { Refusal } from '../core/refusal';
import { projectFolder } from '../platform/project-folder';
import { AnswerCache, contentKey } from '../setting-times/answer-cache';
import type { ForecastTask } from './forecast.worker';

const keptAnswers = 500;
const idleMs = 30_000;
const mostWaiting = 50;

/** Forecasts, computed in a thread of their own and kept by what they were computed from: a new look makes another. */
@Injectable()
export class ForecastFits implements OnApplicationShutdown {
  private readonly kept = new AnswerCache<SettingOutlook>(keptAnswers);
  private readonly running = new Map<string, Promise<SettingOutlook>>();
  // A thread cannot run from source: it takes the compiled program, also where the rest does run from source.
  private readonly threads = new Piscina<ForecastTask, SettingOutlook>({
    filename: path.join(projectFolder, 'dist/src/setting-forecast/forecast.worker.js'),
    name: 'forecast',
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: idleMs,
    maxQueue: mostWaiting,
    resourceLimits: { maxOldGenerationSizeMb: 160, maxYoungGenerationSizeMb: 16 },
  });

  of(batches: readonly ForecastBatch[], asked: ForecastAsked): Promise<SettingOutlook> {
    const batchesKey = contentKey(JSON.stringify(batches));
    const key = contentKey(batchesKey, JSON.stringify(asked));
    const kept = this.kept.get(key);
    if (kept !== undefined) return Promise.resolve(kept);
    const running = this.running.get(key) ?? this.compute(key, { batches, batchesKey, asked });
    this.running.set(key, running);
    return running;
  }

  /** By now every request has been answered. */
  async onApplicationShutdown(): Promise<void> {
    await this.threads.destroy();
  }

  private async compute(key: string, task: ForecastTask): Promise<SettingOutlook> {
    try {
      const outlook = await this.threads.run(task);
      this.kept.keep(key, outlook, 1);
      return outlook;
    } catch (error) {
      if (!(error instanceof Error && error.message === 'Task queue is at limit')) throw error;
      throw new Refusal('unavailable', 'Too much is being computed just now.', {
        retryAfterSeconds: 10,
      });
    } finally {
      this.running.delete(key);
    }
  }
}
