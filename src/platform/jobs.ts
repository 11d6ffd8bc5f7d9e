import { Logger as NestLogger } from '@nestjs/common';
import { Logger, run, runMigrations, runOnce, type Runner, type TaskList } from 'graphile-worker';

// Jobs stand in the same PostgreSQL, in a schema of their own (graphile_worker): what a transaction adds is there exactly when the
// transaction is, and of several copies of the service one takes each job.

/** Makes or renews the tables of the queue. */
export async function installJobs(databaseUrl: string): Promise<void> {
  await runMigrations({ connectionString: databaseUrl, logger: quiet });
}

/** What a worker does: by name, and when by itself (crontab lines, in UTC). */
export interface Work {
  tasks: TaskList;
  crontab: string;
}

const concurrency = 2;
/** Beside those at work: one that listens, one for the rest. */
const connections = concurrency + 2;
const restartMs = 5_000;

/** Takes jobs one after the other until it is stopped. */
export class JobWorker {
  private readonly log = new NestLogger('Jobs');
  private running: Runner | null = null;
  private isStopped = false;

  constructor(
    private readonly databaseUrl: string,
    private readonly work: Work,
  ) {}

  async start(): Promise<void> {
    const runner = await run({ ...this.options(), crontab: this.work.crontab });
    this.running = runner;
    // It gives up when the database is gone for long; the service does not.
    runner.promise
      .catch((error: unknown) => this.log.warn(`The jobs came to a halt: ${String(error)}`))
      .finally(() => {
        this.running = null;
        if (!this.isStopped) setTimeout(() => this.startAgain(), restartMs).unref();
      });
  }

  /** Runs what is due now, and answers when nothing is left. For tests. */
  async runOnce(): Promise<void> {
    await runOnce(this.options());
  }

  /** Lets the jobs that run come to their end. */
  async stop(): Promise<void> {
    this.isStopped = true;
    await this.running?.stop();
  }

  private startAgain(): void {
    if (this.isStopped) return;
    this.start().catch((error: unknown) => {
      this.log.warn(`The jobs do not start: ${String(error)}`);
      setTimeout(() => this.startAgain(), restartMs).unref();
    });
  }

  private options() {
    return {
      connectionString: this.databaseUrl,
      maxPoolSize: connections,
      concurrency,
      // Who serves is asked to stop, and stops this.
      noHandleSignals: true,
      logger: logTo(this.log),
      taskList: this.work.tasks,
    };
  }
}

function logTo(log: NestLogger): Logger {
  return new Logger(() => (level, message) => {
    const name: string = level;
    if (name === 'error') log.error(message);
    if (name === 'warning') log.warn(message);
  });
}

const quiet = new Logger(() => () => undefined);
