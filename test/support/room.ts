import type { ClubWorld } from './world';

/** A cabinet that warms or cools, with two places unless told otherwise; its id. */
export async function aCabinet({ steward, path }: ClubWorld, places = 2): Promise<string> {
  const { body } = await steward
    .post(`${path}/stations`, {
      name: 'Cabinet',
      placeLoadKg: 30,
      changeoverMinutes: 120,
      duties: [
        { duty: 'warm', minC: 30, maxC: 55 },
        { duty: 'cool', minC: 8, maxC: 18 },
      ],
      places,
    })
    .expect(201);
  return (body as { id: string }).id;
}

/** The start of an hour of a day ahead. */
export function ahead(days: number, hour = 8): Date {
  const day = new Date(Date.now() + days * 86_400_000);
  day.setUTCHours(hour, 0, 0, 0);
  return day;
}

export function hoursLater(start: Date, hours: number): Date {
  return new Date(start.getTime() + hours * 3_600_000);
}

/** A wish to warm one pail for a day, with whatever is to be different. */
export function aWish(stationId: string, different: object = {}): Record<string, unknown> {
  const startsAt = ahead(3);
  return {
    stationId,
    duty: 'warm',
    minC: 40,
    maxC: 45,
    startsAt: startsAt.toISOString(),
    endsAt: hoursLater(startsAt, 24).toISOString(),
    places: 1,
    ...different,
  };
}

/** A wish to wait for both places of the cabinet for the day of `aWish`, with whatever is to be different. */
export function aWaitingWish(stationId: string, different: object = {}): Record<string, unknown> {
  const notBefore = ahead(3);
  return {
    stationId,
    duty: 'warm',
    minC: 40,
    maxC: 45,
    places: 2,
    minutes: 24 * 60,
    notBefore: notBefore.toISOString(),
    notAfter: hoursLater(notBefore, 24).toISOString(),
    ...different,
  };
}

/** Books a place at 44 to 46 °C for a member's batch, from one instant to another. */
export async function bookWarming(
  { steward, path }: ClubWorld,
  wish: {
    stationId: string;
    memberId: string;
    batchId: string;
    startsAt: Date | string;
    endsAt: Date | string;
  },
): Promise<void> {
  await steward
    .post(`${path}/bookings`, { ...wish, duty: 'warm', minC: 44, maxC: 46, places: 1 })
    .expect(201);
}
