import { invalidField } from './refusal';

/** Clocks differ a little: so far ahead counts as now. */
const GRACE_MINUTES = 5;

/** Refuses a time at which something cannot have happened yet. `pointer` says where in the body it stands. */
export function refuseFuture(pointer: string, at: Date, now: Date): void {
  if (at.getTime() > now.getTime() + GRACE_MINUTES * 60_000) {
    throw invalidField(
      pointer,
      `It must have happened by now, ${now.toISOString()}: record it when it has.`,
    );
  }
}
