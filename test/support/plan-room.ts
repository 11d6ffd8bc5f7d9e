import { aLot, aSource } from './lots';
import { ahead } from './room';
import type { Service } from './service';
import type { Actor, ClubWorld } from './world';

/** A room in which a whole run can be made, and what Ada brings. */
export interface PlanWorld extends ClubWorld {
  cabinetId: string;
  benchId: string;
  coolRoomId: string;
  sourceId: string;
  honeyId: string;
  seedId: string;
  plans: string;
  bookings: string;
}

export interface RoomWishes {
  cabinetPlaces?: number;
  benchPlaces?: number;
  coolPlaces?: number;
}

/** A cabinet, a bench and a cool room, honey and seed of Ada’s: 25 kg of honey and 5 kg of fine seed. */
export async function aPlanRoom(
  service: Service,
  club: ClubWorld,
  { cabinetPlaces = 2, benchPlaces = 1, coolPlaces = 4 }: RoomWishes = {},
): Promise<PlanWorld> {
  const station = async (
    name: string,
    places: number,
    duty: string,
    minC: number,
    maxC: number,
  ) => {
    const { body } = await club.steward
      .post(`${club.path}/stations`, {
        name,
        placeLoadKg: 30,
        changeoverMinutes: 60,
        duties: [{ duty, minC, maxC }],
        places,
      })
      .expect(201);
    return (body as { id: string }).id;
  };
  const cabinetId = await station('Warming cabinet', cabinetPlaces, 'warm', 30, 55);
  const benchId = await station('Mixing bench', benchPlaces, 'bench', 15, 25);
  const coolRoomId = await station('Cool room', coolPlaces, 'cool', 8, 18);
  const sourceId = await aSource(service, club.clubId);
  const honeyId = await aLot(club.ada, club, sourceId);
  const seedId = await aLot(club.ada, club, sourceId, { kind: 'seed', massKg: 5 });
  return {
    ...club,
    cabinetId,
    benchId,
    coolRoomId,
    sourceId,
    honeyId,
    seedId,
    plans: `${club.path}/plans`,
    bookings: `${club.path}/bookings`,
  };
}

/** A day ahead, as a request says it. */
export function dayAhead(days: number): string {
  return ahead(days).toISOString().slice(0, 10);
}

/** A wish to plan a run of Ada’s 25 kg, with whatever is to be different. */
export function aPlanWish(
  { honeyId }: Pick<PlanWorld, 'honeyId'>,
  different: object = {},
): Record<string, unknown> {
  return {
    name: 'Autumn',
    honey: [{ lotId: honeyId, massKg: 25 }],
    latestPotDay: dayAhead(14),
    ...different,
  };
}

/** Plans a run: the whole answer. */
export async function aPlan(actor: Actor, world: PlanWorld, different: object = {}): Promise<Plan> {
  const { body } = await actor.post(world.plans, aPlanWish(world, different)).expect(201);
  return body as Plan;
}

export interface Plan {
  id: string;
  state: string;
  batchId: string | null;
  alternatives: {
    bestAt: string[];
    slots: {
      step: string;
      stationId: string;
      startsAt: string;
      endsAt: string;
      places: number[];
    }[];
    pottedAt: string;
    coolEnoughAt: string;
    heat: { diastaseLeftPercent: number; warmHours: number; coolingHours: number };
  }[];
  bookings: { step: string; bookingId: string }[];
}
