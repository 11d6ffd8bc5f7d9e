import { Injectable } from '@nestjs/common';
import { LEGAL_LIMITS } from '../core/honey/keeping-limits';
import { SEEDING_C } from '../core/honey/seed-blend';
import { Refusal } from '../core/refusal';
import { HOTTEST_C } from '../plans/plan-assumptions';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { deciOf } from '../platform/fields';
import { CLEAR_C } from './assumptions';
import { knownOr, NotKnown } from './reckoned';
import { reckoningRow, type ReckoningRow } from './reckoning-row';
import { loggedRows, type LoggedRow, type LoggedWanted } from './logged-rows';
import { plannedCourse, startOfCourse, type PlannedCourse } from './planned-course';
import {
  toLoggedCourse,
  toPlannedCourse,
  type TemperatureLimits,
  type TemperaturesResponse,
} from './temperatures.responses';

const HOUR_MS = 3_600_000;
/** A probe is put in a little before the pail is loaded, and stays in a little longer than it must. */
const MARGIN_MS = 6 * HOUR_MS;
/** Warming and cooling together; what is logged later is of the cool room. */
const LONGEST_MS = 21 * 24 * HOUR_MS;

const limits: TemperatureLimits = {
  clearC: CLEAR_C,
  seedC: SEEDING_C.cautious,
  hottestC: HOTTEST_C,
  mostHmfMgPerKg: LEGAL_LIMITS.general.hmfMgPerKg ?? 0,
  leastDiastaseNumber: LEGAL_LIMITS.general.diastaseNumber ?? 0,
  source:
    'Directive 2001/110/EC, Annex II, for honey in general (HMF, diastase); FAO Agricultural Services Bulletin 124 (seeding); the clearing temperature and the hottest: common practice, no source.',
};

/** How warm a batch was to be, and how warm it was. */
@Injectable()
export class TemperaturesService {
  constructor(private readonly database: Database) {}

  async ofBatch({ clubId }: ClubCaller, batchId: string): Promise<TemperaturesResponse> {
    const [row] = await this.database.rows<ReckoningRow>(reckoningRow(clubId, batchId));
    if (row === undefined) throw new Refusal('not-found');

    const course = knownOr(() => plannedCourse(row));
    const planned = course instanceof NotKnown ? null : course;
    const wanted = wantedOf(row, planned);
    const logged =
      wanted === null ? [] : await this.database.rows<LoggedRow>(loggedRows(clubId, wanted));
    return {
      batchId: row.batchId,
      limits,
      planned: planned === null ? null : toPlannedCourse(planned),
      whyNotPlanned: course instanceof NotKnown ? course.reason : null,
      logged: logged.map(toLoggedCourse),
    };
  }
}

/** Which readings are of the warming and cooling; null: neither has a time. */
function wantedOf(row: ReckoningRow, planned: PlannedCourse | null): LoggedWanted | null {
  const startMs = startOfCourse(row);
  if (startMs === null) return null;
  const from = new Date(startMs - MARGIN_MS);
  const until = new Date(Math.min(startMs + LONGEST_MS, endOf(row, planned) + MARGIN_MS));
  const [booking] = row.warmings;
  return {
    batchId: row.batchId,
    from,
    until,
    air:
      booking === undefined
        ? null
        : {
            stationId: booking.stationId,
            from: new Date(booking.startsAt),
            until: new Date(booking.endsAt),
          },
    clearDeciC: deciOf(CLEAR_C),
    seedDeciC: deciOf(SEEDING_C.cautious),
  };
}

/** When it was cool, or seeded at the latest; while it is neither, it may take as long as it takes. */
function endOf({ steps }: ReckoningRow, planned: PlannedCourse | null): number {
  const done = steps.filter(({ kind }) => kind !== 'loaded' && kind !== 'cleared');
  if (done.length === 0) return Infinity;
  const first = Math.min(...done.map(({ at }) => new Date(at).getTime()));
  return Math.max(first, planned?.coolEnoughAtMs ?? first);
}
