import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import type { Transaction } from '../platform/database';
import type { StationDiary } from '../stations/station-diary';
import { StationsService } from '../stations/stations.service';
import { passOnLapsedOffers } from '../waiting/pass-on-lapsed-offers';
import { atAnyHour } from './room-rules';

/** Somebody who books "from now" may take a moment to press the button. */
const graceMs = 15 * 60_000;

/** The diary of a station, held while somebody writes into it. */
@Injectable()
export class HeldDiaries {
  constructor(
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  /** Refuses a start in the past, but to a steward. */
  refusePast(caller: ClubCaller, startsAt: Date): void {
    if (caller.role === 'steward') return;
    if (startsAt.getTime() < this.clock.now().getTime() - graceMs) {
      throw invalidField(
        '#/startsAt',
        'startsAt lies in the past; only a steward enters past times from the paper diary.',
      );
    }
  }

  /** Locks the station; offers that nobody took in time stand in the way no longer. */
  async lock(tx: Transaction, caller: ClubCaller, stationId: string): Promise<void> {
    await this.stations.lock(tx, caller.clubId, stationId).catch((error: unknown) => {
      if (error instanceof Refusal && error.code === 'not-found') {
        throw invalidField('#/stationId', 'The club has no such station.');
      }
      throw error;
    });
    await passOnLapsedOffers(tx, caller, stationId, this.clock.now());
  }

  /** Reads what stands in the diary between two times, without the booking that is about to be moved. */
  reader(
    tx: Transaction,
    { clubId }: ClubCaller,
    stationId: string,
    anyHour: boolean,
    exceptBookingId: string | null = null,
  ): (from: Date, until: Date) => Promise<StationDiary> {
    return async (from, until) => {
      const diary = await this.stations.diary(tx, clubId, stationId, from, until, exceptBookingId);
      return anyHour ? atAnyHour(diary) : diary;
    };
  }
}

/** The numbers of places, as the station counts them. */
export function placeNumbersOf(diary: StationDiary, placeIds: readonly string[]): number[] {
  return placeIds.map((id) => diary.placeNumbers.get(id) ?? 0).sort((a, b) => a - b);
}
