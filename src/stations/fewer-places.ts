import { tellHolder } from '../bookings/tell-holder';
import { putOnPlaces } from '../bookings/put-on-places';
import { otherPlaces, type OtherPlaces } from '../core/planning/other-places';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { stillNeeded, type Need } from './needs';
import type { DiaryBooking, StationDiary } from './station-diary';

/** The bookings that need a place with a number beyond `most`. */
export function needsBeyond(most: number, needs: readonly Need[]): Need[] {
  return needs.filter(({ places }) => places.some((number) => number > most));
}

/** From the first of these bookings to the last: what their diary must cover. */
export function spanOf(needs: readonly Need[]): { from: Date; until: Date } {
  return {
    from: new Date(Math.min(...needs.map(({ startsAt }) => startsAt.getTime()))),
    until: new Date(Math.max(...needs.map(({ endsAt }) => endsAt.getTime()))),
  };
}

/**
 * Which other places, numbered up to `most`, the bookings ahead get at their own times. One that has begun gets none: its honey stands
 * where it stands.
 */
export function placesInstead(
  diary: StationDiary,
  most: number,
  beyond: readonly Need[],
  now: Date,
): OtherPlaces<DiaryBooking>[] {
  const ahead = new Set(beyond.filter(({ startsAt }) => startsAt > now).map(({ id }) => id));
  const isAhead = ({ id }: DiaryBooking) => ahead.has(id);
  const { times, placeNumbers } = diary;
  return otherPlaces(
    {
      ...times,
      placeIds: times.placeIds.filter((id) => (placeNumbers.get(id) ?? 0) <= most),
      bookings: times.bookings.filter((booking) => !isAhead(booking)),
    },
    times.bookings.filter(isAhead),
  );
}

export interface FewerPlaces {
  most: number;
  needs: readonly Need[];
  beyond: readonly Need[];
  /** Whether bookings ahead are to get other places. */
  mayMove: boolean;
}

/** Refuses to take places away that are needed: all of them, or, where bookings may move, those for which there are no others. */
export function refuseUnlessPlacesGo(
  { most, needs, beyond, mayMove }: FewerPlaces,
  { name, placeNumbers }: StationDiary,
  instead: readonly OtherPlaces<DiaryBooking>[],
  now: Date,
): void {
  const numbersOf = (id: string) => numbersIn(placeNumbers, instead, id);
  const inTheWay = mayMove ? beyond.filter(({ id }) => numbersOf(id) === null) : beyond;
  if (inTheWay.length === 0) return;
  const fewest = Math.max(...needs.flatMap(({ places }) => places));
  const canAllMove = beyond.every(({ id }) => numbersOf(id) !== null);
  const which = placeNumbers.size === most + 1 ? `place ${most + 1}` : `places from ${most + 1} on`;
  throw stillNeeded(
    {
      what: `${which} of ${name}`,
      pointer: '#/places',
      needs: inTheWay,
      advice:
        !mayMove && canAllMove
          ? 'Or send otherPlaces: true: there are other places for all of them at their own times.'
          : `Now it can have no fewer than ${fewest} places, unless bookings are moved or cancelled.`,
      offers: {
        places: fewest,
        ifOtherPlaces: beyond.map(({ id, memberId }) => ({
          bookingId: id,
          memberId,
          places: numbersOf(id),
        })),
      },
    },
    now,
  );
}

/** Gives the bookings their other places, and tells their holders. */
export async function putOnOtherPlaces(
  tx: Transaction,
  caller: ClubCaller,
  { stationId, name, placeNumbers }: StationDiary,
  beyond: readonly Need[],
  instead: readonly OtherPlaces<DiaryBooking>[],
): Promise<void> {
  const { clubId } = caller;
  // All go before any comes: one may get what another leaves.
  await tx.bookingPlace.deleteMany({
    where: { clubId, bookingId: { in: beyond.map(({ id }) => id) } },
  });
  for (const need of beyond) {
    const { id, startsAt, endsAt } = need;
    const placeIds = instead.find(({ booking }) => booking.id === id)?.placeIds ?? [];
    await putOnPlaces(tx, { clubId, bookingId: id, stationId, startsAt, endsAt }, placeIds);
    const places = numbersIn(placeNumbers, instead, id);
    await audit(tx, caller, 'booking.moved', id, {
      for: 'fewer places',
      from: need.places,
      to: places,
    });
    // Of what is only kept, the waiting list tells.
    if (need.keptUntil === null) {
      await tellHolder(tx, caller, 'moved', { ...need, stationName: name }, places);
    }
  }
}

function numbersIn(
  placeNumbers: ReadonlyMap<string, number>,
  instead: readonly OtherPlaces<DiaryBooking>[],
  bookingId: string,
): number[] | null {
  const placeIds = instead.find(({ booking }) => booking.id === bookingId)?.placeIds ?? null;
  return placeIds && placeIds.map((id) => placeNumbers.get(id) ?? 0).sort((a, b) => a - b);
}
