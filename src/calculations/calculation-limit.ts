import { Injectable } from '@nestjs/common';
import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';
import { networkOf, tooMany } from '../platform/try-limit';

const WINDOW_SECONDS = 60;

/** Calculations of one kind that one address may have in a minute; those that reckon a pail cell by cell cost a hundred times more. */
export const PER_MINUTE = { light: 120, heavy: 30 } as const;

/**
 * Keeps one address from using up the processor, for calculations are open to everybody. Counted in this process's memory: it is this
 * process's time that is guarded, and a stranger must not be able to make the database write.
 */
@Injectable()
export class CalculationLimit {
  private readonly limiters = {
    light: limiterOf(PER_MINUTE.light),
    heavy: limiterOf(PER_MINUTE.heavy),
  };

  /** Runs a calculation as one of the address's share. */
  async during<Answer>(
    address: string,
    kind: string,
    weight: keyof typeof PER_MINUTE,
    reckon: () => Answer,
  ): Promise<Answer> {
    try {
      await this.limiters[weight].consume(`${kind} ${networkOf(address)}`);
    } catch (refused) {
      if (refused instanceof RateLimiterRes) {
        throw tooMany(Math.max(1, Math.ceil(refused.msBeforeNext / 1000)));
      }
      throw refused;
    }
    return reckon();
  }
}

function limiterOf(points: number): RateLimiterMemory {
  return new RateLimiterMemory({ points, duration: WINDOW_SECONDS });
}
