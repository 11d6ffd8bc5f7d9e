import { invalidField } from '../core/refusal';
import type { WaitingWishRequest } from './waiting.requests';

const minuteMs = 60_000;
const longestWaitMs = 400 * 86_400_000;

/** Refuses a wish that no freed time could ever meet. */
export function refuseBadWish(
  { notBefore, notAfter, minutes, minC, maxC }: WaitingWishRequest,
  now: Date,
): void {
  for (const [name, time] of Object.entries({ notBefore, notAfter })) {
    if (time.getTime() % minuteMs !== 0) {
      throw invalidField(`#/${name}`, `${name} must fall on a whole minute.`);
    }
  }
  if (minC > maxC) throw invalidField('#/maxC', `maxC must be at least minC (${minC}).`);
  const earliest = Math.max(notBefore.getTime(), now.getTime());
  if (earliest + minutes * minuteMs > notAfter.getTime()) {
    throw invalidField(
      '#/notAfter',
      `notAfter must leave ${minutes} minutes from notBefore, or from now where that is past.`,
    );
  }
  if (notAfter.getTime() - notBefore.getTime() > longestWaitMs) {
    throw invalidField('#/notAfter', 'notAfter must be at most 400 days after notBefore.');
  }
}
