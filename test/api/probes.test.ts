import { randomUUID } from 'node:crypto';
import { checksumOf } from '../support/checksum';
import { aPlannedBatch, aSource, daysAgo, minutesAgo } from '../support/lots';
import { aCabinet, ahead } from '../support/room';
import { useService } from '../support/service';
import { aClub, withScopes, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
let batchId: string;

beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club);
  const source = await aSource(service, club.clubId);
  ({ batchId } = await aPlannedBatch(club.ada, club, source));
});

const probes = () => `${club.path}/probes`;

async function aProbe(wishes: object = { stationId }): Promise<string> {
  const { body } = await club.ada
    .post(probes(), { name: `Probe ${randomUUID().slice(0, 8)}`, ...wishes })
    .expect(201);
  return `${probes()}/${String(body.id)}`;
}

describe('a probe', () => {
  test('is put into a station by any member, and is there from now on', async () => {
    const before = Date.now();
    const { body, headers } = await club.ben
      .post(probes(), { name: 'Top shelf', note: 'Blue cable', stationId })
      .expect(201);

    expect(body).toMatchObject({
      name: 'Top shelf',
      note: 'Blue cable',
      placement: { stationId, batchId: null, name: 'Cabinet', endsAt: null },
      lastReading: null,
      readings: 0,
    });
    expect(Date.parse(body.placement.startsAt as string)).toBeGreaterThanOrEqual(before - 1);
    expect(body.placements).toEqual([body.placement]);
    expect(headers['location']).toBe(`/api/v1${probes()}/${String(body.id)}`);
    const shown = await club.ada.get(`${probes()}/${String(body.id)}`).expect(200);
    expect(shown.body).toEqual(body);
  });

  test('may have been in the honey of a batch since a time in the past', async () => {
    const placedAt = daysAgo(2);
    const { body } = await club.ada.get(await aProbe({ batchId, placedAt }));
    expect(body.placement).toEqual({
      stationId: null,
      batchId,
      name: 'Spring',
      startsAt: placedAt,
      endsAt: null,
    });
  });

  test.each([
    ['in nothing', () => ({}), '#'],
    ['in two things', () => ({ stationId, batchId }), '#'],
    ['in a station that is not there', () => ({ stationId: randomUUID() }), '#/stationId'],
    ['in a batch that is not there', () => ({ batchId: randomUUID() }), '#/batchId'],
    ['in a station that is a batch', () => ({ stationId: batchId }), '#/stationId'],
    ['from tomorrow on', () => ({ stationId, placedAt: ahead(1) }), '#/placedAt'],
  ])('is not put %s', async (_, wish, pointer) => {
    const before = await checksumOf(service);
    const { status, body } = await club.ada.post(probes(), { name: 'Probe', ...wish() });
    expect([status, body.type, body.errors[0].pointer]).toEqual([
      422,
      '/problems/invalid',
      pointer,
    ]);
    expect(await checksumOf(service)).toEqual(before);
  });

  test('is not put into a station of another club', async () => {
    const theirs = await aCabinet(await aClub(service));
    const { status, body } = await club.ada.post(probes(), { name: 'Probe', stationId: theirs });
    expect([status, body.detail]).toEqual([422, 'The club has no such station.']);
  });

  test('has a name of its own', async () => {
    await aProbe({ stationId, name: 'Top shelf' });
    const other = await aProbe();
    const made = await club.ben.post(probes(), { name: 'Top shelf', batchId }).expect(409);
    const renamed = await club.ben.change(other, { name: 'Top shelf' });
    for (const { status, body } of [made, renamed]) {
      expect([status, body.type, body.errors[0].pointer]).toEqual([
        409,
        '/problems/duplicate',
        '#/name',
      ]);
    }
  });

  test('is not for a token that may only read', async () => {
    const reader = await withScopes(service, club.ada, ['read']);
    const { body } = await reader.post(probes(), { name: 'Probe', stationId }).expect(403);
    expect(body.detail).toContain('"record"');
  });
});

describe('the list of probes', () => {
  test('goes by name, page by page, and tells where each is and what it last read', async () => {
    const last = await aProbe({ stationId, name: 'B', placedAt: daysAgo(1) });
    await aProbe({ batchId, name: 'A' });
    const at = minutesAgo(3);
    await club.ada.post(`${last}/readings`, { readings: [{ at, temperatureC: 41.26 }] });

    const first = await club.ben.get(`${probes()}?limit=1`).expect(200);
    const second = await club.ben.get(`${probes()}?limit=1&cursor=${first.body.nextCursor}`);
    expect(first.body.items).toMatchObject([
      { name: 'A', placement: { batchId }, lastReading: null },
    ]);
    expect(second.body.items).toMatchObject([
      { name: 'B', placement: { stationId }, lastReading: { at, temperatureC: 41.3 } },
    ]);
    expect(second.body.nextCursor).toBeNull();
  });
});

describe('a change of a probe', () => {
  test('gives it another name and note, and leaves it where it is', async () => {
    const probe = await aProbe();
    const before = await club.ada.get(probe);
    const { status, body } = await club.ben.change(probe, { name: 'Lowest shelf', note: 'Red' });
    expect([status, body]).toEqual([200, { ...before.body, name: 'Lowest shelf', note: 'Red' }]);
  });

  test('moves it on: one placement ends as the next begins', async () => {
    const probe = await aProbe({ stationId, placedAt: daysAgo(3) });
    const movedAt = daysAgo(1);
    const { body } = await club.ben.change(probe, { batchId, movedAt });
    expect(body.placement).toMatchObject({ batchId, startsAt: movedAt, endsAt: null });
    expect(body.placements).toMatchObject([
      { batchId, startsAt: movedAt, endsAt: null },
      { stationId, endsAt: movedAt },
    ]);
    const { body: shown } = await club.ada.get(probe);
    expect(shown).toEqual(body);
  });

  test('takes it out, and puts it back later', async () => {
    const probe = await aProbe({ stationId, placedAt: daysAgo(3) });
    const out = await club.ada.change(probe, { stationId: null, movedAt: daysAgo(2) });
    expect(out.body.placement).toBeNull();
    expect(out.body.placements).toHaveLength(1);

    const again = await club.ada.change(probe, { stationId: null });
    expect(again.body).toEqual(out.body);
    const tooEarly = await club.ada.change(probe, { stationId, movedAt: daysAgo(2.5) });
    expect([tooEarly.status, tooEarly.body.errors[0].pointer]).toEqual([422, '#/movedAt']);
    const back = await club.ada.change(probe, { stationId, movedAt: daysAgo(1) });
    expect(back.body.placement).toMatchObject({ stationId, endsAt: null });
  });

  test('to where it is already changes nothing of where it was', async () => {
    const probe = await aProbe({ stationId, placedAt: daysAgo(3) });
    const before = await club.ada.get(probe);
    const { body } = await club.ada.change(probe, { stationId: stationId.toUpperCase() });
    expect(body).toEqual(before.body);
  });

  test.each([
    ['into two things', () => ({ stationId, batchId }), '#'],
    ['at a time, but to nowhere said', () => ({ movedAt: daysAgo(1) }), '#/movedAt'],
    ['tomorrow', () => ({ batchId, movedAt: ahead(1) }), '#/movedAt'],
    ['before it came', () => ({ batchId, movedAt: daysAgo(4) }), '#/movedAt'],
    ['at the moment it came', () => ({ batchId, movedAt: cameAt }), '#/movedAt'],
    ['into a batch that is not there', () => ({ batchId: randomUUID() }), '#/batchId'],
  ])('does not move it %s', async (_, change, pointer) => {
    const probe = await aProbe({ stationId, placedAt: cameAt });
    const before = await checksumOf(service);
    const { status, body } = await club.ada.change(probe, change());
    expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
    expect(await checksumOf(service)).toEqual(before);
  });
  const cameAt = daysAgo(3);

  test('is refused without a look at the probe as it stands', async () => {
    const probe = await aProbe();
    await club.ada.patch(probe, { note: 'x' }).expect(428);
    await club.ada.patch(probe, { note: 'x' }).set('If-Match', '"old"').expect(412);
  });

  test('is in the history', async () => {
    const probe = await aProbe();
    await club.ada.change(probe, { batchId });
    const id = probe.split('/').at(-1)!;
    const { body } = await club.steward.get(`${club.path}/audit?subjectId=${id}`).expect(200);
    const actions = (body.items as { action: string }[]).map(({ action }) => action);
    expect(actions).toEqual(['probe.changed', 'probe.put-in']);
  });
});

describe('striking off a probe', () => {
  test('is done while it has no reading', async () => {
    const probe = await aProbe();
    expect((await club.ben.remove(probe)).status).toBe(204);
    await club.ada.get(probe).expect(404);
  });

  test('is refused once it has one, and says what to do instead', async () => {
    const probe = await aProbe();
    const readings = [{ at: minutesAgo(1), temperatureC: 14 }];
    await club.ada.post(`${probe}/readings`, { readings }).expect(200);
    const { status, body } = await club.ada.remove(probe);
    expect([status, body.type]).toEqual([409, '/problems/in-use']);
    expect(body.detail).toContain('stationId null');
    await club.ada.get(probe).expect(200);
  });
});

test('a station in which a probe was stays', async () => {
  await aProbe();
  const { status, body } = await club.steward.remove(`${club.path}/stations/${stationId}`);
  expect([status, body.type]).toEqual([409, '/problems/in-use']);
});

test('a probe of another club is not there', async () => {
  const probe = await aProbe();
  const other = await aClub(service);
  const id = probe.split('/').at(-1)!;
  const theirs = await other.ada.get(`${other.path}/probes/${id}`).expect(404);
  const none = await other.ada.get(`${other.path}/probes/${randomUUID()}`).expect(404);
  expect(theirs.body).toEqual(none.body);
});
