import path from 'node:path';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import Piscina from 'piscina';
import { Refusal } from '../core/refusal';
import { projectFolder } from '../platform/project-folder';
import { AnswerCache, contentKey } from './answer-cache';
import type { Question } from './answer/question';
import type { SeededBatchText } from './seeded-batch';
import type { FitAnswer, FitTask } from './setting-times.worker';
import type { SettingTimesResponse } from './setting-times.responses';

/** Characters of JSON. */
const keptAnswers = 4_000_000;
const idleMs = 30_000;
const mostWaiting = 50;

/** Answers about setting times, computed in a thread of their own: however long that takes, other requests are answered meanwhile. */
@Injectable()
export class SettingFits implements OnApplicationShutdown {
  private readonly kept = new AnswerCache<SettingTimesResponse>(keptAnswers);
  private readonly running = new Map<string, Promise<SettingTimesResponse>>();
  // A thread cannot run from source: it takes the compiled program, also where the rest does run from source.
  private readonly threads = new Piscina<FitTask, FitAnswer>({
    filename: path.join(projectFolder, 'dist/src/setting-times/setting-times.worker.js'),
    name: 'fit',
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: idleMs,
    maxQueue: mostWaiting,
    resourceLimits: { maxOldGenerationSizeMb: 160, maxYoungGenerationSizeMb: 16 },
  });

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
    await this.threads.destroy();
  }

  private async compute(key: string, task: FitTask): Promise<SettingTimesResponse> {
    try {
      const { answer, size } = await this.threads.run(task);
      this.kept.keep(key, answer, size);
      return answer;
    } catch (error) {
      throw refusalOf(error);
    } finally {
      this.running.delete(key);
    }
  }
}

/** What a thread that gave up, or a queue that is full, means to whoever asked. */
function refusalOf(error: unknown): unknown {
  if ((error as { code?: unknown } | null)?.code === 'ERR_WORKER_OUT_OF_MEMORY') {
    return new Refusal(
      'unavailable',
      'So many batches are too much to compute at once: narrow them down with from and until.',
      { retryAfterSeconds: 60 },
    );
  }
  if (error instanceof Error && error.message === 'Task queue is at limit') {
    return new Refusal('unavailable', 'Too much is being computed just now.', {
      retryAfterSeconds: 10,
    });
  }
  return error;
}
