import { invalidField } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { deciOf } from '../platform/fields';
import type { StationDutyRequest } from './stations.requests';

/** Refuses a list of duties that names one twice, or a band upside down. */
export function refuseBadDuties(duties: readonly StationDutyRequest[]): void {
  duties.forEach(({ duty, minC, maxC }, index) => {
    if (minC > maxC) {
      throw invalidField(`#/duties/${index}/maxC`, `maxC must be at least minC (${minC}).`);
    }
    if (duties.findIndex((other) => other.duty === duty) < index) {
      throw invalidField(`#/duties/${index}/duty`, `The duty "${duty}" is there already.`);
    }
  });
}

/**
 * Makes these the duties of the station. One that goes stays on record, no longer served, for the bookings that it had. Lock the station
 * first, and see that nobody needs what goes.
 */
export async function setDuties(
  tx: Transaction,
  clubId: string,
  stationId: string,
  duties: readonly StationDutyRequest[],
  now: Date,
): Promise<void> {
  await tx.stationDuty.updateMany({
    where: { clubId, stationId, retiredAt: null, duty: { notIn: duties.map(({ duty }) => duty) } },
    data: { retiredAt: now },
  });
  for (const { duty, minC, maxC } of duties) {
    const served = { minDeciC: deciOf(minC), maxDeciC: deciOf(maxC), retiredAt: null };
    await tx.stationDuty.upsert({
      where: { clubId_stationId_duty: { clubId, stationId, duty } },
      create: { clubId, stationId, duty, ...served },
      update: served,
    });
  }
}
