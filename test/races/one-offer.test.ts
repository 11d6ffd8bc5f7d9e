import { setTimeout } from 'node:timers/promises';
import { Database } from '../../src/platform/database';
import { sweepOffers } from '../../src/waiting/sweep-offers';
import { breaches } from '../support/checker';
import { aCabinet, aWaitingWish, aWish } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();

test.each([
  ['taken, given up and let lapse', true],
  ['taken and given up', false],
])('of thirty who at once want one offer %s, exactly one wins', async (_, withSweep) => {
  for (let round = 0; round < 6; round++) {
    const club = await aClub(service);
    const stationId = await aCabinet(club);
    const booked = await club.steward
      .post(`${club.path}/bookings`, aWish(stationId, { places: 2 }))
      .expect(201);
    const line = `${club.path}/waiting-list`;
    const first = await club.ada.post(line, aWaitingWish(stationId)).expect(201);
    const second = await club.ben.post(line, aWaitingWish(stationId)).expect(201);
    const wish = `${line}/${String(first.body.id)}`;
    await club.steward.remove(`${club.path}/bookings/${String(booked.body.id)}`);
    const { body, headers } = await club.ada.get(wish).expect(200);
    const kept = `${club.path}/bookings/${String(body.offer.bookingId)}`;
    const keptTag = String((await club.ada.get(kept)).headers['etag']);
    const deadline = new Date(body.offer.keptUntil as string);

    const deeds = Array.from({ length: 30 }, (_each, index) => async () => {
      if (withSweep && index % 3 === round % 3) {
        // It needs no request: without a later start it would always be first.
        await setTimeout(round * 40);
        await sweepOffers(service.app.get(Database), deadline);
        return null;
      }
      if (index % 4 === 0) {
        const { status } = await club.ada.delete(wish).set('If-Match', String(headers['etag']));
        return status === 204 ? 'withdrawn' : null;
      }
      if (index % 4 === 1) {
        const { status } = await club.ada.delete(kept).set('If-Match', keptTag);
        return status === 204 ? 'withdrawn' : null;
      }
      const { status } = await club.ada.post(`${wish}/acceptance`);
      return status === 200 ? 'taken' : null;
    });
    // Another one is first in each round.
    const inOrder = [...deeds.slice(round * 5), ...deeds.slice(0, round * 5)];
    const won = (await Promise.all(inOrder.map((deed) => deed()))).filter((deed) => deed !== null);

    const { state } = (await club.ada.get(wish).expect(200)).body as { state: string };
    // The sweep does not say that it won: then nobody else did.
    expect(state === 'lapsed' ? [...won, 'lapsed'] : won).toEqual([state]);
    const active = await service.prisma.booking.findMany({
      where: { clubId: club.clubId, active: true },
    });
    expect(active.map(({ keptForId }) => keptForId)).toEqual([
      state === 'taken' ? first.body.id : second.body.id,
    ]);
  }
  expect(await breaches(service.database)).toEqual([]);
});
