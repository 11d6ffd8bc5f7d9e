import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { NoticeMail } from '../notices/notice-mail.service';
import { mailJob, type MailJob } from '../notices/notify';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { JobWorker } from '../platform/jobs';
import { sweeps, type Sweep } from './sweeps';

const sweepJob = 'sweep';

/** What the service does beside answering: it sends mail, and looks after what time brings about. */
@Injectable()
export class Jobs implements OnApplicationShutdown {
  private readonly log = new Logger(Jobs.name);
  private readonly worker: JobWorker;

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    mail: NoticeMail,
  ) {
    this.worker = new JobWorker(database.url, {
      tasks: {
        [mailJob]: (job) => mail.send(job as MailJob),
        [sweepJob]: () => this.sweep(),
      },
      // Each minute, in one of the copies. A new round takes the place of one that still waits.
      crontab: `* * * * * ${sweepJob} ?max=1&jobKey=${sweepJob}`,
    });
  }

  /** Begins to take jobs. Tests do without, and run them once. */
  start(): Promise<void> {
    return this.worker.start();
  }

  runOnce(): Promise<void> {
    return this.worker.runOnce();
  }

  /** One round; what fails in it is noted, and keeps nothing else from being done. */
  async sweep(some: readonly Sweep[] = sweeps): Promise<void> {
    const now = this.clock.now();
    for (const one of some) {
      await one(this.database, now).catch((error: unknown) =>
        this.log.error(`${one.name} failed: ${String(error)}`),
      );
    }
  }

  async onApplicationShutdown(): Promise<void> {
    await this.worker.stop();
  }
}
