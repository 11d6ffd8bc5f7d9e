import { invalidField, Refusal } from '../core/refusal';

// The only file that knows how PostgreSQL's refusals arrive: from pg with `code` and `constraint`, from Prisma inside
// `meta.driverAdapterError.cause` with `originalCode` and the constraint's name in `originalMessage` alone.

interface DatabaseError {
  sqlState: string;
  message: string;
}

/** What a violated constraint means to a member. The promises that the service keeps by itself are not here: their violation is a bug. */
const byConstraint: Record<string, () => Refusal> = {
  place_once: () => new Refusal('place-taken'),
  one_duty_at_a_time: () => new Refusal('other-duty'),
  temperatures_agree: () => new Refusal('temperature-clash'),
  booking_outside_closures: () => new Refusal('station-closed'),
  closure_off_bookings: () => new Refusal('station-booked'),
  booking_in_duty_windows: () => new Refusal('duty-window'),
  duty_window_off_bookings: () => new Refusal('station-booked'),
  booking_station_in_use: () => new Refusal('place-taken'),
  booking_duty_served: () => new Refusal('other-duty'),
  booking_place_in_use: () => new Refusal('place-taken'),
  station_retired_unbooked: () => new Refusal('still-needed'),
  station_duty_retired_unbooked: () => new Refusal('still-needed'),
  place_retired_unbooked: () => new Refusal('still-needed'),
  duty_window_once: () => invalidField('#', 'At that time the station has a duty window already.'),
  opening_hours_once: () => invalidField('#', 'Opening hours of one day must not overlap.'),
  closed_day_club_id_day_key: () => duplicate('#/day', 'That day is closed already.'),
  seed_reserved: () => new Refusal('seed-reserved'),
  lot_not_overdrawn: () => new Refusal('not-enough-mass'),
  lot_movement_after_lot_was_made: () =>
    new Refusal('lot-unsuitable', 'At that time the lot had not been made yet: look at the dates.'),
  // Two lots made at once drew the same code.
  lot_club_id_code_key: () => new Refusal('unavailable', undefined, { retryAfterSeconds: 1 }),
  lot_movement_not_on_hold: () => new Refusal('on-hold'),
  hold_only_released: () => new Refusal('hold-over'),
  branch_release_of_reached_lot: () =>
    new Refusal('lot-unsuitable', 'The hold does not reach that lot.'),
  lot_correction_of_an_input: () =>
    new Refusal('lot-unsuitable', 'So much did not go from that lot into this one.'),
  lot_correction_of_what_was_lent: () =>
    new Refusal('lot-unsuitable', 'What was handed over came from one lot: name all of it.'),
  lot_input_never_circles: () =>
    new Refusal(
      'lot-unsuitable',
      'It would be made of itself: the right lot was made of this one.',
    ),
  lot_made_of_no_less_than_its_mass: () =>
    new Refusal('lot-unsuitable', 'The lot has more mass than would have gone into it.'),
  loan_returned_and_forgiven_within_lent: () => new Refusal('more-than-owed'),
  loan_once_over_is_over: () => new Refusal('loan-out-of-order'),
  lot_creamed_once: () => new Refusal('step-out-of-order'),
  batch_step_club_id_batch_id_kind_key: () => new Refusal('step-out-of-order'),
  setting_check_only_struck_out: () => new Refusal('check-struck-out'),
  person_email_key: () => duplicate('#/email', 'Somebody has an account with this e-mail already.'),
  member_club_id_person_id_key: () => new Refusal('already-member'),
  floral_source_club_id_name_key: () =>
    duplicate('#/name', 'The club has one of this name already.'),
  station_club_id_name_key: () => duplicate('#/name', 'The club has one of this name already.'),
  probe_club_id_name_key: () => duplicate('#/name', 'The club has one of this name already.'),
  probe_once: () => invalidField('#', 'At that time the probe was somewhere else.'),
  probe_placement_ends_after_start: () =>
    invalidField('#', 'The probe must stay somewhere before it is moved on.'),
};

function duplicate(pointer: string, detail: string): Refusal {
  return new Refusal('duplicate', detail, { errors: [{ pointer, detail }] });
}

/** Whether another transaction got in the way, so that trying again may work (SQLSTATE 40001 and 40P01). */
export function isWriteConflict(error: unknown): boolean {
  const { sqlState } = read(error);
  return sqlState === '40001' || sqlState === '40P01' || has(error, 'code', 'P2034');
}

/** The refusal behind a database error, or the error itself when it is none. Never shows the database's own words. */
export function refusalFromDatabase(error: unknown): unknown {
  if (error instanceof Refusal) return error;
  const { sqlState, message } = read(error);
  const constraint = /constraint "([a-z_]+)"/.exec(message)?.[1] ?? '';
  const known = byConstraint[constraint];
  if (known !== undefined) return withCause(known(), error);
  if (isOutage(sqlState, message)) {
    return withCause(new Refusal('unavailable', undefined, { retryAfterSeconds: 2 }), error);
  }
  if (has(error, 'code', 'P2025')) return withCause(new Refusal('not-found'), error);
  switch (sqlState.slice(0, 2)) {
    case '23':
      return withCause(fromIntegrity(sqlState, message), error);
    case '22':
    case '54':
      return withCause(new Refusal('invalid', 'A value cannot be stored.'), error);
    default:
      return error;
  }
}

function fromIntegrity(sqlState: string, message: string): Refusal {
  if (sqlState === '23505') return new Refusal('duplicate');
  // PostgreSQL 18 tells a forbidden deletion apart.
  if (sqlState === '23001') return new Refusal('in-use');
  if (sqlState === '23503') {
    return /update or delete on table/.test(message)
      ? new Refusal('in-use')
      : invalidField('#', 'It names something that this club does not have.');
  }
  return new Refusal('invalid');
}

function isOutage(sqlState: string, message: string): boolean {
  return (
    // P1…: Prisma did not reach it at all.
    /^(08|57|53|55P03|P1)/.test(sqlState) ||
    /ECONNREFUSED|ECONNRESET|EPIPE|Connection terminated|timeout exceeded when trying to connect|Query read timeout|Unable to start a transaction|Transaction already closed|expired transaction/i.test(
      message,
    )
  );
}

function withCause(refusal: Refusal, cause: unknown): Refusal {
  refusal.cause = cause;
  return refusal;
}

function has(error: unknown, key: string, value: string): boolean {
  return (
    typeof error === 'object' && error !== null && (error as Record<string, unknown>)[key] === value
  );
}

interface AdapterCause {
  originalCode?: string;
  originalMessage?: string;
  constraint?: { index?: string };
}

function read(error: unknown): DatabaseError {
  if (typeof error !== 'object' || error === null) return { sqlState: '', message: '' };
  const whole = error as {
    code?: string;
    message?: string;
    constraint?: string;
    cause?: AdapterCause;
    meta?: { driverAdapterError?: { cause?: AdapterCause } };
  };
  const cause = whole.meta?.driverAdapterError?.cause ?? whole.cause;
  const index = cause?.constraint?.index ?? whole.constraint;
  return {
    sqlState: cause?.originalCode ?? whole.code ?? '',
    message:
      (cause?.originalMessage ?? whole.message ?? '') +
      (index === undefined ? '' : ` constraint "${index}"`),
  };
}
