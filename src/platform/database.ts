import { createHash } from 'node:crypto';
import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { PrismaPg } from '@prisma/adapter-pg';
import pg from 'pg';
import { Refusal } from '../core/refusal';
import type { AnyCaller } from './caller';
import { isWriteConflict, refusalFromDatabase } from './database-refusal';
import { claim, keepAnswer, type KeptAnswer } from './idempotency';
import { Prisma, PrismaClient } from './prisma-client/client';
import { statusOf } from './problem';
import type { Settings } from './settings';

export type Transaction = Prisma.TransactionClient;

const triesOnConflict = 4;
const patienceMs = 15_000;

/** PostgreSQL through one pool: Prisma for ordinary work, SQL by hand for the reads that are asked for all day. */
@Injectable()
export class Database implements OnApplicationShutdown {
  readonly prisma: PrismaClient;
  /** For libraries that keep their own table. */
  readonly pool: pg.Pool;
  private readonly log = new Logger(Database.name);

  constructor(
    readonly url: string,
    settings: Pick<Settings, 'poolSize'>,
  ) {
    this.pool = new pg.Pool({
      connectionString: url,
      max: settings.poolSize,
      application_name: 'creaming-room',
      connectionTimeoutMillis: patienceMs,
      statement_timeout: patienceMs,
      query_timeout: patienceMs + 1_000,
      lock_timeout: patienceMs - 1_000,
      // The adapter writes times without a zone, meaning UTC.
      options: '-c TimeZone=UTC',
    });
    this.pool.on('error', (error) =>
      this.log.warn(`A database connection broke: ${error.message}`),
    );
    this.prisma = new PrismaClient({ adapter: new PrismaPg(this.pool) });
  }

  /** Rows of one statement, in one round trip. Column names are those that the statement gives. */
  async rows<Row extends object>(query: Prisma.Sql): Promise<Row[]> {
    try {
      const result = await this.pool.query<Row>({
        name: statementName(query.text),
        text: query.text,
        values: query.values,
      });
      return result.rows;
    } catch (error) {
      throw refusalFromDatabase(error);
    }
  }

  /**
   * Runs the work in one transaction and answers what it answers. A repeat of the caller's Idempotency-Key gets the kept answer, and
   * the work does not run; a lost race for rows is run again. `completed` may make more of a refusal, once nothing is left of the work:
   * what it offers may have to be looked for, and filed.
   */
  async write<Answer>(
    caller: AnyCaller,
    work: (tx: Transaction) => Promise<Answer>,
    completed: (refusal: Refusal) => Promise<Refusal> = (refusal) => Promise.resolve(refusal),
  ): Promise<Answer> {
    const want = caller.idempotency;
    try {
      return await this.transaction(async (tx) => {
        if (want === null) return work(tx);
        const kept = await claim(tx, want);
        if (kept !== null) return answerOrThrow(kept) as Answer;
        const answer = await work(tx);
        await keepAnswer(tx, want, { answer });
        return answer;
      });
    } catch (thrown) {
      const isNew = thrown instanceof Refusal && want?.replayed !== true;
      const error = isNew ? await completed(thrown) : thrown;
      // A refusal for the state of things is an answer too: the repeat gets the same one.
      if (want?.replayed === false && error instanceof Refusal && isKept(error)) {
        const { code, detail, more } = error;
        await this.transaction((tx) => keepAnswer(tx, want, { refusal: { code, detail, more } }));
      }
      throw error;
    }
  }

  /** Whether the database answers. */
  async isReady(): Promise<boolean> {
    return this.pool.query('select 1').then(
      () => true,
      () => false,
    );
  }

  async onApplicationShutdown(): Promise<void> {
    await this.prisma.$disconnect();
    await this.pool.end();
  }

  private async transaction<Answer>(work: (tx: Transaction) => Promise<Answer>): Promise<Answer> {
    for (let attempt = 1; ; attempt++) {
      try {
        return await this.prisma.$transaction(work, { maxWait: patienceMs, timeout: patienceMs });
      } catch (error) {
        if (!isWriteConflict(error)) throw refusalFromDatabase(error);
        if (attempt === triesOnConflict)
          throw new Refusal('unavailable', undefined, { retryAfterSeconds: 1 });
        await new Promise((resolve) => setTimeout(resolve, attempt * 20 * (1 + Math.random())));
      }
    }
  }
}

function answerOrThrow(kept: KeptAnswer): unknown {
  if ('refusal' in kept) {
    throw new Refusal(kept.refusal.code, kept.refusal.detail, kept.refusal.more);
  }
  return kept.answer;
}

function isKept(refusal: Refusal): boolean {
  return statusOf(refusal.code) === 409 && refusal.code !== 'request-running';
}

const statementNames = new Map<string, string>();

/** A name under which PostgreSQL keeps the statement prepared. */
function statementName(text: string): string {
  let name = statementNames.get(text);
  if (name === undefined) {
    name = createHash('sha1').update(text).digest('base64url');
    statementNames.set(text, name);
  }
  return name;
}
