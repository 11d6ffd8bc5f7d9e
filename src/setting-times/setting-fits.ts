import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { ComputingThread } from '../platform/computing-thread';
import { AnswerCache, contentKey } from './answer-cache';
import type { Question } from './answer/question';
import type { SeededBatchText } from './seeded-batch';
import type { FitAnswer, FitTask } from './setting-times.worker';
import type { SettingTimesResponse } from './setting-times.responses';

/** Characters of JSON. */
const keptAnswers = 4_000_000;

/** Answers about setting times, computed in a thread of their own: however long that takes, other requests are answered meanwhile. */
@Injectable()
export class SettingFits implements OnApplicationShutdown {
  private readonly kept = new AnswerCache<SettingTimesResponse>(keptAnswers);
  private readonly running = new Map<string, Promise<SettingTimesResponse>>();
  private readonly thread = new ComputingThread<FitTask, FitAnswer>(
    'setting-times/setting-times.worker.js',
    'fit',
    'So many batches are too much to compute at once: narrow them down with from and until.',
  );

  /** The answer to a question about these batches: kept, being computed for somebody else, or computed now. */
  answer(text: SeededBatchText, question: Question): Promise<SettingTimesResponse> {
    const key = contentKey(JSON.stringify(question), text.timeZone, text.batches);
    const kept = this.kept.get(key);
    if (kept !== undefined) return Promise.resolve(kept);
    const running = this.running.get(key) ?? this.compute(key, { text, question });
    this.running.set(key, running);
    return running;
  }

  /** By now every request has been answered. */
  async onApplicationShutdown(): Promise<void> {
    await this.thread.end();
  }

  private async compute(key: string, task: FitTask): Promise<SettingTimesResponse> {
    try {
      const { answer, size } = await this.thread.run(task);
      this.kept.keep(key, answer, size);
      return answer;
    } finally {
      this.running.delete(key);
    }
  }
}
