import { RateLimiterPostgres, RateLimiterRes } from 'rate-limiter-flexible';
import { Refusal, type RefusalCode } from '../core/refusal';
import type { Database } from './database';

export interface Tries {
  isOver: boolean;
  left: number;
  secondsToNext: number;
}

/**
 * How many tries a key has in a window of time, which starts with the first of them. Counted in PostgreSQL: all copies of the service
 * share the count, and a restart does not forget it.
 */
export class TryLimit {
  private readonly limiter: RateLimiterPostgres;

  constructor(
    database: Database,
    readonly name: string,
    readonly tries: number,
    readonly windowSeconds: number,
  ) {
    this.limiter = new RateLimiterPostgres({
      storeClient: database.pool,
      storeType: 'pool',
      tableName: 'rate_limit',
      tableCreated: true,
      keyPrefix: name,
      points: tries,
      duration: windowSeconds,
    });
  }

  /** Takes a try before its outcome is known, so that many at once do not all pass; one that must not count is given back. */
  async take(key: string): Promise<Tries> {
    try {
      return triesOf(await this.limiter.consume(key), false);
    } catch (refused) {
      if (refused instanceof RateLimiterRes) return triesOf(refused, true);
      throw refused;
    }
  }

  async giveBack(key: string): Promise<Tries> {
    return triesOf(await this.limiter.reward(key), false);
  }

  /** Runs the work as one try, which counts only when the work is refused with that code. */
  async during<Answer>(
    key: string,
    countsWhen: RefusalCode,
    work: () => Promise<Answer>,
  ): Promise<Answer> {
    const tries = await this.take(key);
    if (tries.isOver) throw tooMany(tries.secondsToNext);
    try {
      const answer = await work();
      await this.giveBack(key);
      return answer;
    } catch (error) {
      if (!(error instanceof Refusal && error.code === countsWhen)) await this.giveBack(key);
      throw error;
    }
  }
}

export function tooMany(secondsToNext: number): Refusal {
  return new Refusal('too-many', `Try again in ${secondsToNext} seconds.`, {
    retryAfterSeconds: secondsToNext,
  });
}

function triesOf({ remainingPoints, msBeforeNext }: RateLimiterRes, isOver: boolean): Tries {
  return {
    isOver,
    left: remainingPoints,
    secondsToNext: Math.max(1, Math.ceil(msBeforeNext / 1000)),
  };
}

/**
 * The network that tries from an address are counted for: an IPv4 address itself, also when it comes mapped into IPv6; the first 64 bits
 * of an IPv6 address, of which one household has all the rest to itself (RFC 6177).
 */
export function networkOf(address: string): string {
  const mapped = /^::ffff:(\d{1,3}(?:\.\d{1,3}){3})$/i.exec(address)?.[1];
  if (mapped !== undefined) return mapped;
  if (!address.includes(':')) return address;
  const [head = '', tail] = (address.split('%')[0] ?? '').split('::');
  const front = head === '' ? [] : head.split(':');
  const back = tail === undefined || tail === '' ? [] : tail.split(':');
  const zeros = tail === undefined ? [] : Array<string>(8 - front.length - back.length).fill('0');
  const groups = [...front, ...zeros, ...back].slice(0, 4);
  return groups.map((group) => Number.parseInt(group, 16).toString(16)).join(':');
}
