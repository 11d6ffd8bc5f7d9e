import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refusalFromDatabase } from '../platform/database-refusal';
import { refuseIfStale } from '../platform/entity-tag';
import { gramsOf } from '../platform/fields';
import { given } from '../platform/given';
import { endHopelessWishes } from '../waiting/end-hopeless-wishes';
import { lapseOffers } from '../waiting/lapse-offers';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import {
  needsBeyond,
  placesInstead,
  putOnOtherPlaces,
  refuseUnlessPlacesGo,
  spanOf,
} from './fewer-places';
import { setChangeover } from './longer-changeover';
import { needsOf, stillNeeded, type Need } from './needs';
import { refuseUnlessDutiesGo } from './other-duties';
import { refuseBadDuties, setDuties } from './station-duties';
import { setPlaces } from './station-places';
import { readStation } from './station-rows';
import type { StationChange } from './stations.requests';
import type { StationResponse } from './stations.responses';
import { StationsService } from './stations.service';

/** Changes stations that were set up: what nobody needs any more can go, and what was before stays on record. */
@Injectable()
export class StationChanges {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  change(caller: ClubCaller, id: string, change: StationChange): Promise<StationResponse> {
    return this.database.write(caller, async (tx) => {
      const { clubId } = caller;
      const now = this.clock.now();
      await this.stations.lock(tx, clubId, id);
      const current = await readStation(tx, clubId, id);
      refuseIfStale(caller, current);
      refuseBadDuties(change.duties ?? []);
      // An offer whose deadline has passed needs nothing any more.
      await lapseOffers(tx, caller, id, now);
      const needs = await needsOf(tx, clubId, id, now);

      await this.retire(tx, caller, current, needs, change, now);
      if (change.places !== undefined && change.places < current.places) {
        await this.freePlaces(tx, caller, current, needs, change, now);
      }
      if (change.duties !== undefined) {
        await refuseUnlessDutiesGo(tx, clubId, current, change.duties, needs, now);
        await setDuties(tx, clubId, id, change.duties, now);
      }
      if (change.places !== undefined) await setPlaces(tx, clubId, id, change.places, now);
      if (change.changeoverMinutes !== undefined) {
        await setChangeover(tx, clubId, id, change.changeoverMinutes, now);
      }
      await tx.station.update({
        where: { clubId_id: { clubId, id } },
        data: {
          ...given({ name: change.name, changeoverMinutes: change.changeoverMinutes }),
          ...(change.placeLoadKg !== undefined && { placeLoadG: gramsOf(change.placeLoadKg) }),
        },
      });
      await endHopelessWishes(tx, caller, id, now);
      await offerFreedTimes(tx, caller, id, now);
      const changed = await readStation(tx, clubId, id);
      await audit(tx, caller, 'station.changed', id, difference(current, changed));
      return changed;
    });
  }

  /** Removes what never had a history. */
  remove(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      await this.stations.lock(tx, caller.clubId, id);
      const current = await readStation(tx, caller.clubId, id);
      refuseIfStale(caller, current);
      await tx.station
        .delete({ where: { clubId_id: { clubId: caller.clubId, id } } })
        .catch((error: unknown) => {
          const refusal = refusalFromDatabase(error);
          if (!(refusal instanceof Refusal) || refusal.code !== 'in-use') throw error;
          throw new Refusal(
            'in-use',
            'It has a history, which stays. A station that is sold or broken is taken out of use: change it with retired: true.',
          );
        });
      await audit(tx, caller, 'station.removed', id, { name: current.name });
    });
  }

  /** Takes the station out of use, or into use again. */
  private async retire(
    tx: Transaction,
    { clubId }: ClubCaller,
    { id, name, retiredAt }: StationResponse,
    needs: readonly Need[],
    { retired }: StationChange,
    now: Date,
  ): Promise<void> {
    if (retired === undefined || retired === (retiredAt !== null)) return;
    if (retired && needs.length > 0)
      throw stillNeeded({ what: name, pointer: '#/retired', needs }, now);
    await tx.station.update({
      where: { clubId_id: { clubId, id } },
      data: { retiredAt: retired ? now : null },
    });
  }

  /** Sees that nothing needs the places that go: refuses it, or gives bookings ahead others. */
  private async freePlaces(
    tx: Transaction,
    caller: ClubCaller,
    { id, places }: StationResponse,
    needs: readonly Need[],
    { places: most = places, otherPlaces: mayMove = false }: StationChange,
    now: Date,
  ): Promise<void> {
    const beyond = needsBeyond(most, needs);
    if (beyond.length === 0) return;
    const { from, until } = spanOf(beyond);
    const diary = await this.stations.diary(tx, caller.clubId, id, from, until);
    const instead = placesInstead(diary, most, beyond, now);
    refuseUnlessPlacesGo({ most, needs, beyond, mayMove }, diary, instead, now);
    await putOnOtherPlaces(tx, caller, diary, beyond, instead);
  }
}

/** What changed, as it was and as it is. */
function difference(before: StationResponse, after: StationResponse): object {
  const keys = Object.keys(after) as (keyof StationResponse)[];
  const changed = keys.filter((key) => JSON.stringify(before[key]) !== JSON.stringify(after[key]));
  const of = (station: StationResponse) =>
    Object.fromEntries(changed.map((key) => [key, station[key]]));
  return { from: of(before), to: of(after) };
}
