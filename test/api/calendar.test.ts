import fc from 'fast-check';
import request from 'supertest';
import { Browser } from '../support/browser';
import { readCalendar, type CalendarEvent } from '../support/icalendar';
import { countStatements } from '../support/lots';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, aSessionCookieOf, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club, 4);
});

async function eventsOf(actor: Actor, query = ''): Promise<CalendarEvent[]> {
  const { text } = await actor.get(`${club.path}/calendar.ics${query}`).expect(200);
  return readCalendar(text).events;
}

async function byUid(actor: Actor, uid: string, query = ''): Promise<CalendarEvent | undefined> {
  return (await eventsOf(actor, query)).find((event) => event.uid === uid);
}

async function book(
  actor: Actor,
  different: object = {},
): Promise<{ id: string; startsAt: string; endsAt: string }> {
  const { body } = await actor
    .post(`${club.path}/bookings`, aWish(stationId, different))
    .expect(201);
  return body;
}

function feedOwner(actor: Actor): Promise<Browser> {
  return aSessionCookieOf(service, actor.personId).then((cookie) => new Browser(service, cookie));
}

async function aFeed(actor: Actor): Promise<{ id: string; path: string }> {
  const browser = await feedOwner(actor);
  const { body } = await browser.post(`${club.path}/calendar-feeds`, { name: 'Phone' }).expect(201);
  return body;
}

test('a booking is there with its times in UTC, its station, and the moments at which hands are needed', async () => {
  const booking = await book(club.ada, { note: 'Two pails; the blue ones, please' });

  const answer = await club.ada.get(`${club.path}/calendar.ics`).expect(200);
  expect(answer.headers['content-type']).toBe('text/calendar; charset=utf-8');
  const { events, name } = readCalendar(answer.text);

  expect(name).toMatch(/^Club /);
  expect(events).toHaveLength(3);
  const [whole, bringIn, takeOut] = ['', '-bring-in', '-take-out'].map((part) =>
    events.find(({ uid }) => uid === `${booking.id}${part}`)!,
  );
  expect(whole).toMatchObject({
    start: booking.startsAt,
    end: booking.endsAt,
    location: 'Cabinet',
    status: 'CONFIRMED',
    transparency: 'TRANSPARENT',
    sequence: 0,
  });
  expect(whole!.description).toContain('Two pails; the blue ones, please');
  expect([bringIn!.start, takeOut!.start]).toEqual([booking.startsAt, booking.endsAt]);
  expect(bringIn!.transparency).toBe('OPAQUE');
});

test('mine are mine alone; all are everybody’s, without the moments of others', async () => {
  const adas = await book(club.ada);
  const bens = await book(club.ben);

  const mine = (await eventsOf(club.ada)).map(({ uid }) => uid);
  expect(mine.filter((uid) => uid.startsWith(adas.id))).toHaveLength(3);
  expect(mine).toHaveLength(3);
  const all = (await eventsOf(club.ada, '?whose=all')).map(({ uid }) => uid);
  expect(all.filter((uid) => uid.startsWith(bens.id))).toEqual([bens.id]);
  expect(all.filter((uid) => uid.startsWith(adas.id))).toHaveLength(3);
  const event = await byUid(club.ada, bens.id, '?whose=all');
  expect(event!.summary).toMatch(/\(Person /);
});

test('what is moved keeps its UID and is a later revision; what is cancelled is told as cancelled for a month', async () => {
  const booking = await book(club.ada);
  const first = (await byUid(club.ada, booking.id))!;
  const startsAt = hoursLater(new Date(booking.startsAt), 5);
  await club.ada.change(`${club.path}/bookings/${booking.id}`, { startsAt });

  const moved = (await byUid(club.ada, booking.id))!;
  expect([moved.start, moved.sequence]).toEqual([startsAt.toISOString(), first.sequence + 1]);
  expect(moved.lastModified >= first.lastModified).toBe(true);

  await club.ada.remove(`${club.path}/bookings/${booking.id}`);
  const cancelled = await eventsOf(club.ada);
  expect(cancelled.map(({ status, sequence }) => [status, sequence])).toEqual(
    Array(3).fill(['CANCELLED', moved.sequence + 1]),
  );
  await service.prisma.booking.update({
    where: { clubId_id: { clubId: club.clubId, id: booking.id } },
    data: { cancelledAt: new Date(Date.now() - 31 * 86_400_000) },
  });
  expect(await eventsOf(club.ada)).toEqual([]);
});

test('closures and closed days are there for everybody, days as days', async () => {
  const { body: closure } = await club.steward
    .post(`${club.path}/stations/${stationId}/closures`, {
      startsAt: ahead(9),
      endsAt: ahead(10),
      reason: 'Descaling',
    })
    .expect(201);
  const closedDay = await service.prisma.closedDay.create({
    data: { clubId: club.clubId, day: new Date('2026-12-31T00:00:00Z'), reason: 'New Year’s Eve' },
  });
  const day = closedDay.day.getTime();
  const isNear = day > Date.now() - 50 * 86_400_000 && day < Date.now() + 390 * 86_400_000;

  const events = await eventsOf(club.ben);

  expect(events.find(({ uid }) => uid === closure.id)).toMatchObject({
    start: ahead(9).toISOString(),
    end: ahead(10).toISOString(),
    summary: 'Cabinet is closed: Descaling',
    sequence: 0,
  });
  const event = events.find(({ uid }) => uid === closedDay.id);
  expect(event?.start).toBe(isNear ? '2026-12-31' : undefined);
  expect(event?.end).toBe(isNear ? '2027-01-01' : undefined);

  const path = `${club.path}/stations/${stationId}/closures/${String(closure.id)}`;
  await club.steward.change(path, { reason: 'Repair' });
  expect((await byUid(club.ben, closure.id))!.sequence).toBe(1);
});

test('a time kept for somebody is tentative until they take it', async () => {
  const booking = await book(club.ada);
  const { id } = await service.prisma.waitingWish.create({
    data: {
      clubId: club.clubId,
      memberId: club.ada.memberId,
      stationId,
      duty: 'warm',
      minDeciC: 400,
      maxDeciC: 450,
      places: 1,
      minutes: 60,
      notBefore: ahead(1),
      notAfter: ahead(9),
      state: 'offered',
    },
  });
  await service.prisma.booking.update({
    where: { clubId_id: { clubId: club.clubId, id: booking.id } },
    data: { keptForId: id, keptUntil: ahead(1) },
  });
  expect((await byUid(club.ada, booking.id))!.status).toBe('TENTATIVE');
});

test('whatever a member writes is read back as it was, and breaks no line', async () => {
  const booking = await book(club.ada);
  const notes = fc
    .string({ unit: 'binary', minLength: 1, maxLength: 200 })
    .filter((note) => !note.includes('\u0000'));
  await fc.assert(
    fc.asyncProperty(
      fc.oneof(
        fc.constantFrom(
          'a\r\nBEGIN:VALARM\r\nEND:VALARM',
          '🍯'.repeat(60),
          'back\\slash; semi, comma: "quote"',
          '\u0007bell\ttab',
          'è'.repeat(200),
        ),
        notes,
      ),
      async (note) => {
        await service.prisma.booking.update({
          where: { clubId_id: { clubId: club.clubId, id: booking.id } },
          data: { note },
        });
        const { description } = (await byUid(club.ada, booking.id))!;
        const read = note
          .replace(/\r\n?/g, '\n')
          .replace(/[\u0000-\u0009\u000b-\u001f\u007f]/g, ' ');
        expect(description!.split('\n').slice(1).join('\n')).toBe(read);
      },
    ),
    { numRuns: 40 },
  );
});

test('the same diary is the same bytes, and who has them is told so', async () => {
  await book(club.ada);
  const path = `${club.path}/calendar.ics`;
  const first = await club.ada.get(path);
  await new Promise((resolve) => setTimeout(resolve, 1100));
  const second = await club.ada.get(path);
  expect(second.text).toBe(first.text);
  await club.ada.get(path).set('If-None-Match', String(first.headers['etag'])).expect(304);
  expect(await countStatements(() => club.ada.get(path).expect(200))).toBe(2);
});

describe('a feed', () => {
  test('opens its member’s calendar to whoever has its address, and nothing else', async () => {
    const booking = await book(club.ada);
    const { path } = await aFeed(club.ada);

    const answer = await request(service.url).get(path);
    expect([answer.status, answer.headers['cache-control']]).toEqual([200, 'private, no-cache']);
    expect(readCalendar(answer.text).events.map(({ uid }) => uid)).toContain(booking.id);
    const again = await request(service.url)
      .get(path)
      .set('If-None-Match', String(answer.headers['etag']));
    expect(again.status).toBe(304);
    await book(club.ben);
    const all = await request(service.url).get(`${path}&whose=all`);
    expect(readCalendar(all.text).events).toHaveLength(4);

    const secret = path.split('feed=')[1]!;
    const elsewhere = [
      `${club.path}/bookings`,
      `${club.path}/today`,
      `${club.path}/calendar-feeds`,
      '/people/me',
    ];
    for (const other of elsewhere) {
      const refused = await request(service.url).get(`/api/v1${other}?feed=${secret}`);
      expect([other, refused.status]).toEqual([other, 401]);
    }
    const bearer = await request(service.url)
      .get(`/api/v1${club.path}/calendar.ics`)
      .set('Authorization', `Bearer ${secret}`);
    expect(bearer.status).toBe(401);
    const otherClub = await aClub(service);
    const foreign = await request(service.url).get(
      `/api/v1${otherClub.path}/calendar.ics?feed=${secret}`,
    );
    expect(foreign.status).toBe(404);
  });

  test('is shown once, is not in the database, and is gone when it is removed or its member has left', async () => {
    const [kept, removed] = [await aFeed(club.ada), await aFeed(club.ada)];
    const secret = kept.path.split('feed=')[1]!;
    const rows = await service.database.query(
      `select row_to_json(f)::text as row from calendar_feed f`,
    );
    expect(JSON.stringify(rows)).not.toContain(secret);
    const browser = await feedOwner(club.ada);
    const list = await browser.get(`${club.path}/calendar-feeds`).expect(200);
    expect(list.body.items).toHaveLength(2);
    expect(list.text).not.toContain(secret);
    await (await feedOwner(club.ben)).get(`${club.path}/calendar-feeds/${kept.id}`).expect(404);

    expect((await browser.remove(`${club.path}/calendar-feeds/${removed.id}`)).status).toBe(204);
    expect((await request(service.url).get(removed.path)).status).toBe(404);
    expect((await request(service.url).get(kept.path)).status).toBe(200);
    await service.prisma.member.updateMany({
      where: { id: club.ada.memberId },
      data: { leftAt: new Date() },
    });
    expect((await request(service.url).get(kept.path)).status).toBe(404);
  });

  test.each(['', 'short', 'x'.repeat(32), "' or true --", 'ü'.repeat(32)])(
    'of the secret %j is not there',
    async (secret) => {
      const path = `/api/v1${club.path}/calendar.ics?feed=${encodeURIComponent(secret)}`;
      const { status, body } = await request(service.url).get(path);
      expect([status, body.type]).toEqual([404, '/problems/not-found']);
    },
  );
});

test('nobody reads a calendar without signing in or a feed', async () => {
  const { status } = await request(service.url).get(`/api/v1${club.path}/calendar.ics`);
  expect(status).toBe(401);
});

test('an empty diary is a calendar, too', async () => {
  expect(await eventsOf(club.ben)).toEqual([]);
});
