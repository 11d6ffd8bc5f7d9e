import path from 'node:path';
import Piscina from 'piscina';
import { Refusal } from '../core/refusal';
import { projectFolder } from './project-folder';

const idleMs = 30_000;
const mostWaiting = 50;

/**
 * A thread for long computing, started when something is to be computed and gone when nothing was for a while: however long that takes,
 * other requests are answered meanwhile. Tasks and answers are copied there and back.
 */
export class ComputingThread<Task, Answer> {
  private readonly threads: Piscina<Task, Answer>;

  /**
   * `file` is the compiled worker below dist/src (a thread cannot run from source, also where the rest does), `name` what it exports;
   * `tooMuch` says what to do when the memory that one thread may take is not enough.
   */
  constructor(
    file: string,
    name: string,
    private readonly tooMuch: string,
  ) {
    this.threads = new Piscina<Task, Answer>({
      filename: path.join(projectFolder, 'dist/src', file),
      name,
      minThreads: 0,
      maxThreads: 1,
      idleTimeout: idleMs,
      maxQueue: mostWaiting,
      resourceLimits: { maxOldGenerationSizeMb: 160, maxYoungGenerationSizeMb: 16 },
    });
  }

  /** Refused (unavailable) when too many wait already, or when it takes more memory than there is for it. */
  async run(task: Task): Promise<Answer> {
    try {
      return await this.threads.run(task);
    } catch (error) {
      throw this.refusalOf(error);
    }
  }

  /** Call it when every request has been answered. */
  async end(): Promise<void> {
    await this.threads.destroy();
  }

  private refusalOf(error: unknown): unknown {
    if ((error as { code?: unknown } | null)?.code === 'ERR_WORKER_OUT_OF_MEMORY') {
      return new Refusal('unavailable', this.tooMuch, { retryAfterSeconds: 60 });
    }
    if (error instanceof Error && error.message === 'Task queue is at limit') {
      return new Refusal('unavailable', 'Too much is being computed just now.', {
        retryAfterSeconds: 10,
      });
    }
    return error;
  }
}
