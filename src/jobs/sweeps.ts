import { forgetExpiredPlans } from './forget-expired-plans';
import { forgetOldKeys } from './forget-old-keys';
import { sweepOverdueLoans } from '../loans/sweep-overdue-loans';
import { mailAgain } from '../notices/mail-again';
import { sweepNoShows } from '../no-shows/sweep-no-shows';
import { sweepOverstays } from '../overstays/sweep-overstays';
import { sweepOffers } from '../waiting/sweep-offers';
import type { Database } from '../platform/database';

/**
 * Something to look after each minute. It may run in two copies of the service at once, and may be broken off: what it does, it does in
 * transactions of its own, and doing it again does nothing more.
 */
export type Sweep = (database: Database, now: Date) => Promise<unknown>;

/** What is looked after each minute, in this order. To add one: a line here. */
export const sweeps: Sweep[] = [
  sweepOffers,
  sweepNoShows,
  sweepOverstays,
  sweepOverdueLoans,
  mailAgain,
  forgetOldKeys,
  forgetExpiredPlans,
];
