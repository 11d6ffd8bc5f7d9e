import { randomUUID } from 'node:crypto';
import { aCabinet, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();

test('of two hundred who want the last place at once, one gets it and the others are told when there is one', async () => {
  const club = await aClub(service);
  const stationId = await aCabinet(club);
  const bookings = `${club.path}/bookings`;
  await club.steward.post(bookings, aWish(stationId)).expect(201);

  const answers = await Promise.all(
    Array.from({ length: 200 }, (_, index) =>
      (index % 2 === 0 ? club.ada : club.ben).post(bookings, aWish(stationId)),
    ),
  );

  const won = answers.filter(({ status }) => status === 201);
  const lost = answers.filter(({ status }) => status === 409);
  expect([won.length, lost.length]).toEqual([1, 199]);
  for (const { body } of lost) {
    expect(body.type).toBe('/problems/place-taken');
    expect(body.freeTimes.length).toBeGreaterThan(0);
  }
  expect(await service.prisma.bookingPlace.count({ where: { clubId: club.clubId } })).toBe(2);
  const startsAt = new Date(lost[0]!.body.freeTimes[0].firstStart as string);
  await club.ben
    .post(bookings, aWish(stationId, { startsAt, endsAt: hoursLater(startsAt, 24) }))
    .expect(201);
});

test('one request sent twenty times at once with one key has one effect', async () => {
  const club = await aClub(service);
  const stationId = await aCabinet(club, 40);
  const key = randomUUID();
  const send = () =>
    club.ada.post(`${club.path}/bookings`, aWish(stationId)).set('Idempotency-Key', key);

  const answers = await Promise.all(Array.from({ length: 20 }, send));

  const made = answers.filter(({ status }) => status === 201);
  const waiting = answers.filter(({ status }) => status === 409);
  expect(made.length + waiting.length).toBe(20);
  expect(new Set(made.map(({ body }) => body.id as string)).size).toBe(1);
  for (const { body, headers } of waiting) {
    expect(body.type).toBe('/problems/request-running');
    expect(Number(headers['retry-after'])).toBeGreaterThan(0);
  }
  expect(await service.prisma.booking.count({ where: { clubId: club.clubId } })).toBe(1);
  const late = await send().expect(201);
  expect(late.headers['idempotent-replayed']).toBe('true');
});

test('the key of one member means nothing for another', async () => {
  const club = await aClub(service);
  const stationId = await aCabinet(club);
  const key = randomUUID();
  const ours = await club.ada
    .post(`${club.path}/bookings`, aWish(stationId))
    .set('Idempotency-Key', key)
    .expect(201);

  const theirs = await club.ben
    .post(`${club.path}/bookings`, aWish(stationId))
    .set('Idempotency-Key', key)
    .expect(201);

  expect(theirs.body.id).not.toBe(ours.body.id);
  expect(theirs.headers['idempotent-replayed']).toBeUndefined();
});
