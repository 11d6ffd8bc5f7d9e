import { aSource, aSeededBatch, aLot, minutesAgo } from './lots';
import { aPlanRoom, aPlanWish } from './plan-room';
import { aCabinet, ahead, aWaitingWish, aWish } from './room';
import type { Service } from './service';
import { Browser } from './browser';
import { aPerson, aSessionCookieOf, type ClubWorld } from './world';

/** Ids of real things, by the word that stands before them in an address. */
export type Things = Record<string, string>;

/**
 * One of everything that has an address, in that club: the lots, the batch and the loan are Ada's, the booking too. The token is the
 * steward's, the notice and the feed too, the invitation open, the session a browser's that the steward left signed in.
 */
export async function aFullClub(service: Service, club: ClubWorld): Promise<Things> {
  const { path, steward, ada, ben } = club;
  const source = await aSource(service, club.clubId);
  const station = await aCabinet(club);
  const closure = await idOf(
    steward.post(`${path}/stations/${station}/closures`, {
      startsAt: ahead(30),
      endsAt: ahead(31),
      reason: 'Cleaning',
    }),
  );
  const window = await idOf(
    steward.post(`${path}/stations/${station}/duty-windows`, {
      duty: 'warm',
      startsAt: ahead(50),
      endsAt: ahead(60),
    }),
  );
  const closedDay = await idOf(
    steward.post(`${path}/closed-days`, { day: '2035-12-24', reason: 'Midwinter' }),
  );
  const booking = await idOf(ada.post(`${path}/bookings`, aWish(station)));
  const waiting = await idOf(ada.post(`${path}/waiting-list`, aWaitingWish(station)));
  const { batchId } = await aSeededBatch(ada, club, source, minutesAgo(90));
  const steps = await ada.get(`${path}/batches/${batchId}/steps`).expect(200);
  const check = await idOf(
    ada.post(`${path}/batches/${batchId}/setting-checks`, { at: minutesAgo(5), state: 'liquid' }),
  );
  const seed = await aLot(ada, club, source, { kind: 'seed', massKg: 5 });
  const loan = await idOf(
    ada.post(`${path}/loans`, {
      lotId: seed,
      borrowerId: ben.memberId,
      massKg: 1,
      at: minutesAgo(1),
    }),
  );
  const plan = await planOf(service, club);
  const suspect = await aLot(ada, club, source, { kind: 'seed', massKg: 5 });
  const hold = await idOf(ada.post(`${path}/lots/${suspect}/holds`, { reason: 'Smells' }));
  await ada.post(`${path}/lots/${suspect}/recall-drills`).expect(201);
  const probe = await idOf(
    ada.post(`${path}/probes`, { name: 'Top shelf', stationId: station, placedAt: minutesAgo(60) }),
  );
  await ada
    .post(`${path}/probes/${probe}/readings`, {
      readings: [
        { at: minutesAgo(20), temperatureC: 14.2 },
        { at: minutesAgo(10), temperatureC: 14.4 },
      ],
    })
    .expect(200);
  const accepted = await steward.post(`${path}/invitations`).expect(201);
  const { personId } = await aPerson(service);
  await new Browser(service, await aSessionCookieOf(service, personId))
    .post(`/invitations/${(accepted.body as { code: string }).code}/acceptance`)
    .expect(200);
  const notices = await steward.get(`${path}/notices`).expect(200);
  const { body } = await steward.post(`${path}/invitations`).expect(201);
  const { id: invitation, code } = body as { id: string; code: string };
  const browser = new Browser(service, await aSessionCookieOf(service, steward.personId));
  const token = await idOf(browser.post('/tokens', { name: 'Scales', scopes: ['read'] }));
  const session = await idOf(browser.get('/session'));
  const feed = await idOf(browser.post(`${path}/calendar-feeds`, { name: 'Phone' }));
  return {
    clubs: club.clubId,
    members: ben.memberId,
    'floral-sources': source,
    stations: station,
    closures: closure,
    'duty-windows': window,
    'closed-days': closedDay,
    bookings: booking,
    'waiting-list': waiting,
    lots: seed,
    batches: batchId,
    steps: firstOf(steps.body),
    'setting-checks': check,
    loans: loan,
    plans: plan,
    holds: hold,
    probes: probe,
    notices: firstOf(notices.body),
    'calendar-feeds': feed,
    invitations: invitation,
    code,
    tokens: token,
    sessions: session,
  };
}

function firstOf(page: unknown): string {
  return (page as { items: { id: string }[] }).items[0]?.id ?? '';
}

/** A plan of Ada’s in a room of its own stations, not booked. */
async function planOf(service: Service, club: ClubWorld): Promise<string> {
  const room = await aPlanRoom(service, club);
  return idOf(club.ada.post(room.plans, aPlanWish(room)));
}

async function idOf(answer: PromiseLike<{ status: number; body: unknown }>): Promise<string> {
  const { status, body } = await answer;
  if (status > 201) throw new Error(`${status}: ${JSON.stringify(body)}`);
  return (body as { id: string }).id;
}
