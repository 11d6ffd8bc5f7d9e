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
  private readonly thread = new ComputingThread<ForecastTask, SettingOutlook[]>(
    'setting-forecast/forecast.worker.js',
    'forecast',
    'The club has more batches than can be computed at once.',
  );

  async of(batches: readonly ForecastBatch[], asked: ForecastAsked): Promise<SettingOutlook> {
    const [outlook] = await this.ofMany(batches, [asked]);
    if (outlook === undefined) throw new Error('A forecast came back empty.');
    return outlook;
  }

  /** Of many batches, in the order asked: what is not kept is computed in one go, and one fit serves all of which the same is known. */
  ofMany(
    batches: readonly ForecastBatch[],
    asked: readonly ForecastAsked[],
  ): Promise<SettingOutlook[]> {
    const batchesKey = contentKey(JSON.stringify(batches));
    const questions = asked.map((one) => {
      const key = contentKey(batchesKey, JSON.stringify(one));
      return { key, one, known: this.kept.get(key) ?? this.running.get(key) };
    });
    // Batches of which the same is known are one question.
    const missing = new Map(
      questions.filter(({ known }) => known === undefined).map(({ key, one }) => [key, one]),
    );
    const missingKeys = [...missing.keys()];
    const outlooks =
      missing.size === 0
        ? Promise.resolve([])
        : this.thread.run({ batches, batchesKey, asked: [...missing.values()] });
    return Promise.all(
      questions.map(
        async ({ key, known }) =>
          known ?? this.running.get(key) ?? this.keep(key, outlooks, missingKeys.indexOf(key)),
      ),
    );
  }

  /** By now every request has been answered. */
  async onApplicationShutdown(): Promise<void> {
    await this.thread.end();
  }

  private keep(
    key: string,
    outlooks: Promise<SettingOutlook[]>,
    index: number,
  ): Promise<SettingOutlook> {
    const one = async () => {
      try {
        const outlook = (await outlooks)[index];
        if (outlook === undefined) throw new Error('A forecast came back empty.');
        this.kept.keep(key, outlook, 1);
        return outlook;
      } finally {
        this.running.delete(key);
      }
    };
    const outlook = one();
    this.running.set(key, outlook);
    return outlook;
  }
}
