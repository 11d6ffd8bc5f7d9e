import { randomUUID } from 'node:crypto';
import request from 'supertest';
import { aDatabase, type TestDatabase } from '../support/database';
import { startCopy, type Copy } from '../support/copy';

// Two copies of the service, started by hand against one database, serve as one.

let database: TestDatabase;
let copies: Copy[];

beforeAll(async () => {
  database = await aDatabase();
  copies = await Promise.all([startCopy(database.url), startCopy(database.url)]);
});
afterAll(async () => {
  for (const copy of copies) await copy.stop();
  await database.drop();
});

test('what one copy knows the other knows, from the founding of a club to the last place', async () => {
  const [one, other] = copies.map(({ url }) => request(url));
  const account = {
    name: 'Founder',
    email: 'founder@example.org',
    password: 'amber granite whistle 42',
  };
  await one!.post('/api/v1/people').send(account).expect(201);
  const signedIn = await other!.post('/api/v1/session').send(account).send({ name: undefined });
  expect(signedIn.status).toBe(201);
  const cookie = String(signedIn.headers['set-cookie']?.[0]).split(';')[0]!;
  const asFounder = (test: request.Test) =>
    test.set('Cookie', cookie).set('Sec-Fetch-Site', 'same-origin');

  const club = await asFounder(one!.post('/api/v1/clubs'))
    .send({ name: 'Two doors', timeZone: 'Europe/Vienna' })
    .expect(201);
  const path = `/api/v1/clubs/${String(club.body.id)}`;
  const station = await asFounder(other!.post(`${path}/stations`))
    .send({
      name: 'Cabinet',
      placeLoadKg: 30,
      changeoverMinutes: 60,
      duties: [{ duty: 'warm', minC: 30, maxC: 50 }],
      places: 1,
    })
    .expect(201);

  const wish = {
    stationId: String(station.body.id),
    duty: 'warm',
    minC: 40,
    maxC: 45,
    startsAt: '2099-01-01T08:00:00Z',
    endsAt: '2099-01-02T08:00:00Z',
    places: 1,
  };
  const answers = await Promise.all(
    Array.from({ length: 40 }, (_, index) =>
      asFounder((index % 2 === 0 ? one! : other!).post(`${path}/bookings`)).send(wish),
    ),
  );
  expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
  expect(answers.filter(({ status }) => status === 409)).toHaveLength(39);

  const key = randomUUID();
  const later = { ...wish, startsAt: '2099-02-01T08:00:00Z', endsAt: '2099-02-02T08:00:00Z' };
  const made = await asFounder(one!.post(`${path}/bookings`))
    .set('Idempotency-Key', key)
    .send(later)
    .expect(201);
  const again = await asFounder(other!.post(`${path}/bookings`))
    .set('Idempotency-Key', key)
    .send(later)
    .expect(201);
  expect(again.body).toEqual(made.body);

  await asFounder(one!.delete('/api/v1/session')).expect(204);
  await asFounder(other!.get(path)).expect(401);
});

test('a copy that is asked to stop ends cleanly', async () => {
  const copy = await startCopy(database.url);

  expect(await copy.stop()).toBe(0);
});
