/** Every way in which the service says no: a stable code and the sentence that stands for it. */
export const refusals = {
  malformed: 'The request could not be read.',
  'bad-cursor': 'The cursor is not one that this list gave.',
  'bad-idempotency-key': 'The Idempotency-Key cannot be used.',
  'sign-in-needed': 'Sign in first.',
  'sign-in-failed': 'E-mail and password do not go together.',
  'not-allowed': 'This is not open to you.',
  'not-yours': 'Only its holder or a steward may do this.',
  'cross-site': 'A signed-in browser may do this only from this service’s own pages.',
  'not-found': 'There is no such thing here.',
  'method-not-allowed': 'This address does not take that method.',
  duplicate: 'There is one like that already.',
  'in-use': 'Something else still needs it.',
  'still-needed': 'Bookings, or honey that stands there, still need it.',
  'place-taken': 'Not enough places are free at that time.',
  'other-duty': 'The station serves another duty at that time.',
  'temperature-clash': 'The station is booked for temperatures that do not go with these.',
  'station-closed': 'The station is closed at that time.',
  'station-booked': 'The station is booked at that time.',
  'duty-window': 'The station is kept for another duty at that time.',
  'club-closed': 'The room is not open then.',
  'fair-share': 'That is more than a member may have booked ahead.',
  'seed-reserved': 'That seed is reserved for a batch.',
  'no-plan': 'There is no way through the room for that.',
  'plan-taken': 'Something of that plan is no longer free.',
  'plan-over': 'The plan can no longer be booked.',
  'plan-upset': 'Other bookings of the plan hang on this one.',
  'booking-over': 'The booking is over.',
  'booking-begun': 'The booking has begun.',
  'booking-ahead': 'The booking has not begun.',
  'arrived-already': 'The honey is in already.',
  'places-not-cleared': 'Somebody’s honey still stands on the places.',
  'offer-open': 'The booking is only kept; it has not been taken.',
  'free-now': 'There is no need to wait: such a time is free.',
  'nothing-offered': 'Nothing is kept for that wish.',
  'wish-over': 'The wish is over.',
  'place-overloaded': 'That is more than the places bear.',
  'not-enough-mass': 'The lot does not hold that much.',
  'on-hold': 'The lot is on hold.',
  'hold-over': 'The hold has been released already.',
  'lot-unsuitable': 'That lot cannot be used for this.',
  'loan-out-of-order': 'That does not come next for the loan.',
  'more-than-owed': 'That is more than is owed.',
  'step-out-of-order': 'That step does not come next.',
  'step-stays': 'That step cannot be taken back.',
  'check-struck-out': 'The setting check has been struck out already.',
  'last-steward': 'A club keeps at least one steward.',
  'already-member': 'That person is a member already.',
  'invitation-over': 'The invitation has been used, withdrawn or is too old.',
  'reading-differs': 'Another temperature is on record for that time.',
  'request-running': 'The same request is still being worked on.',
  stale: 'It has changed since you read it.',
  'match-needed': 'Send If-Match with the ETag that you read.',
  'too-large': 'The request is too large.',
  'wrong-media-type': 'Send application/json.',
  invalid: 'Some of it cannot be accepted.',
  'key-reused': 'That Idempotency-Key came with another request before.',
  'too-many': 'Too many tries; wait a little.',
  unavailable: 'The service cannot answer just now.',
  failure: 'Something went wrong on our side.',
} as const;

export type RefusalCode = keyof typeof refusals;

/** One thing that is wrong, and where: a JSON Pointer (RFC 6901, as a URI fragment) into the body, or the name of a parameter. */
export interface Fault {
  detail: string;
  pointer?: string;
  parameter?: string;
}

export interface RefusalMore {
  errors?: Fault[];
  retryAfterSeconds?: number;
  /** Further members of the answer, such as the next free times: what would work. */
  offers?: Record<string, unknown>;
}

/** A refusal: nothing was changed. `detail` says in words what is wrong in this case and what would work. */
export class Refusal extends Error {
  constructor(
    readonly code: RefusalCode,
    readonly detail: string = refusals[code],
    readonly more: RefusalMore = {},
  ) {
    super(`${code}: ${detail}`);
  }
}

/** A refusal of one parameter of the query. */
export function invalidParameter(parameter: string, detail: string): Refusal {
  return new Refusal('invalid', detail, { errors: [{ parameter, detail }] });
}

/** A refusal of one field of the body. */
export function invalidField(pointer: string, detail: string): Refusal {
  return new Refusal('invalid', detail, { errors: [{ pointer, detail }] });
}
