import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { Jobs } from '../../src/jobs/jobs.service';
import { noticeWords } from '../../src/notices/words';
import { Database } from '../../src/platform/database';
import { Browser } from '../support/browser';
import { aLot, aSource, aSeededBatch, daysAgo, minutesAgo } from '../support/lots';
import { aCabinet, ahead, aWish } from '../support/room';
import { useService } from '../support/service';
import { aClub, aPerson, aSessionCookieOf, type Actor, type ClubWorld } from '../support/world';

const settings: Record<string, string> = { MAIL_FROM: 'Honey house <house@example.org>' };
beforeAll(async () => {
  settings['DATA_DIR'] = await mkdtemp(path.join(os.tmpdir(), 'creaming-room-mail-'));
});
const service = useService(settings);
afterAll(() => rm(settings['DATA_DIR']!, { recursive: true }));

let club: ClubWorld;
beforeEach(async () => {
  club = await aClub(service);
});

async function noticesOf(actor: Actor, query = ''): Promise<Record<string, string | null>[]> {
  const { body } = await actor.get(`${club.path}/notices${query}`).expect(200);
  return body.items;
}

async function mailOf(noticeId: string): Promise<string | null> {
  return readFile(path.join(settings['DATA_DIR']!, 'mail', `${noticeId}.eml`), 'utf8').catch(
    () => null,
  );
}

async function aBookingOfAda(): Promise<string> {
  const { body } = await club.ada
    .post(`${club.path}/bookings`, aWish(await aCabinet(club)))
    .expect(201);
  return body.id;
}

test('whose booking a closure cancels is told why, by the clock of the club; who closes is not', async () => {
  const id = await aBookingOfAda();
  const { body: booking } = await club.ada.get(`${club.path}/bookings/${id}`);
  await club.steward
    .post(`${club.path}/stations/${String(booking.stationId)}/closures`, {
      startsAt: ahead(2),
      endsAt: ahead(6),
      reason: 'New door seal',
      bookings: 'cancel',
    })
    .expect(201);

  const [notice, ...others] = await noticesOf(club.ada);
  expect(others).toEqual([]);
  expect(notice).toMatchObject({ kind: 'booking.cancelled', subjectId: id, readAt: null });
  expect(notice!['text']).toContain('New door seal');
  const local = new Intl.DateTimeFormat('en-GB', {
    timeZone: 'Europe/Vienna',
    hour: '2-digit',
    minute: '2-digit',
  });
  expect(notice!['text']).toContain(local.format(new Date(booking.startsAt)));
  expect(await noticesOf(club.steward)).toEqual([]);
  expect(await noticesOf(club.ben)).toEqual([]);
});

test('what a steward does to a booking is told, each time; what its holder does is not', async () => {
  const id = await aBookingOfAda();
  const booking = `${club.path}/bookings/${id}`;
  await club.ada.change(booking, { note: 'Two pails' });
  expect(await noticesOf(club.ada)).toEqual([]);

  await club.steward.change(booking, { note: 'Two small pails' });
  await club.steward.change(booking, { note: 'Two pails' });
  await club.steward.remove(booking);

  expect((await noticesOf(club.ada)).map(({ kind }) => kind)).toEqual([
    'booking.cancelled',
    'booking.moved',
    'booking.moved',
  ]);
});

test('a loan is told to its other side, and to both when a steward files it', async () => {
  const source = await aSource(service, club.clubId);
  const seed = await aLot(club.ada, club, source, { kind: 'seed', massKg: 5 });
  const loan = { lotId: seed, borrowerId: club.ben.memberId, massKg: 1, at: minutesAgo(1) };
  await club.ada.post(`${club.path}/loans`, loan).expect(201);
  await club.steward.post(`${club.path}/loans`, { ...loan, dueOn: '2099-05-01' }).expect(201);

  expect((await noticesOf(club.ada)).map(({ kind }) => kind)).toEqual(['loan.given']);
  const [second, first] = await noticesOf(club.ben);
  expect([first!['kind'], second!['kind']]).toEqual(['loan.received', 'loan.received']);
  expect(second!['text']).toContain('2099-05-01');
});

test('whoever invited is told who came; whose batch somebody else finds set is told so', async () => {
  const { body } = await club.steward.post(`${club.path}/invitations`).expect(201);
  const newcomer = await aPerson(service);
  await new Browser(service, await aSessionCookieOf(service, newcomer.personId))
    .post(`/invitations/${String(body.code)}/acceptance`)
    .expect(200);
  expect((await noticesOf(club.steward)).map(({ kind }) => kind)).toEqual(['invitation.accepted']);

  const source = await aSource(service, club.clubId);
  const { path: batch } = await aSeededBatch(club.ada, club, source, daysAgo(9));
  await club.ben.post(`${batch}/setting-checks`, { at: minutesAgo(2), state: 'set' }).expect(201);
  expect((await noticesOf(club.ada)).map(({ kind }) => kind)).toEqual(['batch.seen-set']);
});

test('notices are read one by one, or all at once, by whom they are for', async () => {
  const id = await aBookingOfAda();
  for (const note of ['a', 'b', 'c']) {
    await club.steward.change(`${club.path}/bookings/${id}`, { note });
  }
  const [latest] = await noticesOf(club.ada);
  const one = `${club.path}/notices/${String(latest!['id'])}`;

  await club.ben.get(one).expect(404);
  await club.steward.post(`${one}/read`).expect(404);
  const { body } = await club.ada.post(`${one}/read`).expect(200);
  expect(body.readAt).not.toBeNull();
  const again = await club.ada.post(`${one}/read`).expect(200);
  expect(again.body.readAt).toBe(body.readAt);
  expect(await noticesOf(club.ada, '?unread=true')).toHaveLength(2);
  const all = await club.ada.post(`${club.path}/notices/all/read`).expect(200);
  expect(all.body).toEqual({ markedCount: 2 });
  expect(await noticesOf(club.ada, '?unread=true')).toEqual([]);
  expect(await noticesOf(club.ada)).toHaveLength(3);

  const { body: page } = await club.ada.get(`${club.path}/notices?limit=2`);
  const rest = await club.ada.get(`${club.path}/notices?limit=2&cursor=${page.nextCursor}`);
  expect([page.items.length, rest.body.items.length]).toEqual([2, 1]);
});

test('a notice is mailed, as a file where there is no mail server, and is then said to have been', async () => {
  const id = await aBookingOfAda();
  await club.steward.remove(`${club.path}/bookings/${id}`);
  const [notice] = await noticesOf(club.ada);
  const noticeId = String(notice!['id']);
  expect(notice!['mailedAt']).toBeNull();

  await service.app.get(Jobs).runOnce();

  const text = await mailOf(noticeId);
  expect(text).toContain(`Message-ID: <${noticeId}@example.org>`);
  expect(text).toMatch(/^From: Honey house <house@example\.org>\r$/m);
  expect(text).toMatch(/^Subject: Your booking of Cabinet was cancelled\r$/m);
  expect(text).toMatch(/^Auto-Submitted: auto-generated\r$/m);
  expect(text!.replaceAll('\r\n', '')).not.toContain('\n');
  expect((await noticesOf(club.ada))[0]!['mailedAt']).not.toBeNull();
  expect((await readdir(path.join(settings['DATA_DIR']!, 'mail'))).join()).not.toContain('.part');
});

test('who wants no mail gets none, also of what was told before, and is told in the service all the same', async () => {
  const browser = new Browser(service, await aSessionCookieOf(service, club.ada.personId));
  const id = await aBookingOfAda();
  await club.steward.change(`${club.path}/bookings/${id}`, { note: 'a' });
  const { body } = await browser.change('/people/me', { mailNotices: false });
  expect(body.mailNotices).toBe(false);
  await club.steward.remove(`${club.path}/bookings/${id}`);

  await service.app.get(Jobs).runOnce();

  const notices = await noticesOf(club.ada);
  expect(notices.map(({ mailedAt }) => mailedAt)).toEqual([null, null]);
  for (const notice of notices) expect(await mailOf(String(notice['id']))).toBeNull();
  // Who wants mail again is not mailed what is past.
  await browser.change('/people/me', { mailNotices: true });
  await service.app.get(Jobs).runOnce();
  expect((await noticesOf(club.ada)).map(({ mailedAt }) => mailedAt)).toEqual([null, null]);
});

test('a name that holds a line break adds no line to the head of a mail', async () => {
  await service.prisma.person.update({
    where: { id: club.ada.personId },
    data: { name: 'Ada\r\nBcc: all@example.org' },
  });
  const id = await aBookingOfAda();
  await club.steward.remove(`${club.path}/bookings/${id}`);
  await service.app.get(Jobs).runOnce();

  const [notice] = await noticesOf(club.ada);
  expect(await mailOf(String(notice!['id']))).not.toMatch(/^Bcc:/im);
});

test('each minute old keys and expired plans are forgotten; what fails does not keep the rest from being done', async () => {
  const old = new Date(Date.now() - 3 * 86_400_000);
  await service.prisma.idempotencyKey.create({
    data: {
      personId: club.ada.personId,
      route: 'POST /x',
      keyHash: Buffer.from('old'),
      fingerprint: Buffer.from('x'),
      createdAt: old,
    },
  });
  const plan = { clubId: club.clubId, memberId: club.ada.memberId, request: {}, alternatives: [] };
  await service.prisma.plan.createMany({
    data: [
      { ...plan, expiresAt: old },
      { ...plan, expiresAt: new Date(Date.now() - 60_000) },
    ],
  });
  const database = service.app.get(Database);
  const seen: string[] = [];
  await service.app
    .get(Jobs)
    .sweep([
      () => Promise.reject(new Error('on purpose')),
      (given) => Promise.resolve(void seen.push(given === database ? 'done' : 'another')),
    ]);
  await service.app.get(Jobs).sweep();

  expect(seen).toEqual(['done']);
  expect(await service.prisma.idempotencyKey.count()).toBe(0);
  expect(await service.prisma.plan.count()).toBe(1);
});

test('there are words for kinds that nobody has written words for', () => {
  const words = noticeWords(
    'kettle.boiled',
    { at: '2026-01-02T03:04:05Z' },
    { clubName: 'Club', timeZone: 'UTC' },
  );
  expect(words).toEqual({ subject: 'Club: kettle boiled', text: 'at: 2026-01-02T03:04:05Z' });
});
