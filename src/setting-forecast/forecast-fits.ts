import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import type { ForecastBatch } from '../core/setting/forecast/forecast-batch';
import type { ForecastAsked, SettingOutlook } from '../core/setting/forecast/forecast-setting';
import { ComputingThread } from '../platform/computing-thread';
import { AnswerCache, contentKey } from '../setting-times/answer-cache';
import type { ForecastTask } from './forecast.worker';

const keptAnswers = 500;

/** Forecasts, computed in a thread of their own and kept by what they were computed from: a new look makes another. */
@Injectable()
export class ForecastFits implements OnApplicationShutdown {
  private readonly kept = new AnswerCache<SettingOutlook>(keptAnswers);
  private readonly running = new Map<string, Promise<SettingOutlook>>();
  private readonly thread = new ComputingThread<ForecastTask, SettingOutlook>(
    'setting-forecast/forecast.worker.js',
    'forecast',
    'The club has more batches than can be computed at once.',
  );

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
    await this.thread.end();
  }

  private async compute(key: string, task: ForecastTask): Promise<SettingOutlook> {
    try {
      const outlook = await this.thread.run(task);
      this.kept.keep(key, outlook, 1);
      return outlook;
    } finally {
      this.running.delete(key);
    }
  }
}
