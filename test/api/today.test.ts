import {
  aLot,
  aPlannedBatch,
  aSeededBatch,
  aSource,
  countStatements,
  daysAgo,
  minutesAgo,
} from '../support/lots';
import { aCabinet, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let source: string;
beforeEach(async () => {
  club = await aClub(service);
  source = await aSource(service, club.clubId);
});

interface Task {
  kind: string;
  sentence: string;
  late: boolean;
  lateMinutes: number | null;
  isOpen: boolean;
  notBefore: string | null;
  dueAt: string | null;
  bookingId: string | null;
  batch: { id: string } | null;
  member: { id: string };
  request: { method: string; path: string; body: Record<string, unknown>; fillIn: string[] };
  cautions: string[];
}

async function today(actor: Actor, query = '') {
  const { body } = await actor.get(`${club.path}/today${query}`).expect(200);
  return body as {
    at: string;
    tasks: Task[];
    honey: Record<string, unknown>[];
    undo: { what: string; request: Task['request'] }[];
  };
}

const kinds = async (actor: Actor, query = '') =>
  (await today(actor, query)).tasks.map(({ kind }) => kind);

/** Sends what a task says, with what it says is still to be filled in. */
function send(actor: Actor, { request }: { request: Task['request'] }, added: object = {}) {
  const path = request.path.replace('/api/v1', '');
  return actor.post(path, { ...request.body, ...added });
}

function pathBelowApi(batchId: string): string {
  return `${club.path}/batches/${batchId}`;
}

/** A place in the cabinet for a batch of Ada's, from so many hours from now on; entered by a steward, who may enter past ones. */
async function aBookingFor(batchId: string, startsInHours: number, hours: number, duty = 'warm') {
  const startsAt = hoursLater(new Date(Math.floor(Date.now() / 60_000) * 60_000), startsInHours);
  const { body } = await club.steward
    .post(`${club.path}/bookings`, {
      stationId: await cabinet(),
      duty,
      minC: duty === 'warm' ? 40 : 12,
      maxC: duty === 'warm' ? 45 : 14,
      places: 1,
      startsAt,
      endsAt: hoursLater(startsAt, hours),
      batchId,
      memberId: club.ada.memberId,
    })
    .expect(201);
  return body.id as string;
}

async function cabinet(): Promise<string> {
  const { body } = await club.ada.get(`${club.path}/stations`);
  return (body.items[0]?.id as string | undefined) ?? (await aCabinet(club));
}

test('a whole batch is done by sending what today says, with what only its member knows', async () => {
  const { batchId, seedId } = await aPlannedBatch(club.ada, club, source);
  await aBookingFor(batchId, -1, 48);
  const done: string[] = [];
  const added: Record<string, object> = {
    seed: { seed: [{ lotId: seedId, massKg: 2 }] },
    pot: { pots: [{ netMassKg: 0.5, count: 40 }], seedPutByKg: 2 },
    check: { state: 'set' },
  };

  for (let round = 0; round < 12; round++) {
    const { tasks } = await today(club.ada, '?daysAhead=30');
    const [task] = tasks;
    if (task === undefined) break;
    expect(task.request.fillIn.map((pointer) => pointer.slice(2))).toEqual(
      Object.keys(added[task.kind] ?? {}).slice(0, 1),
    );
    if (task.kind === 'check') await seedEarlier(batchId);
    const { status } = await send(club.ada, task, added[task.kind]);
    expect([task.kind, status < 300]).toEqual([task.kind, true]);
    done.push(task.kind);
  }

  // Nothing is to be cleared: stirring in the seed says that the honey has left the cabinet.
  expect([...done].sort()).toEqual(['check', 'load', 'pot', 'seed', 'shelve', 'take-out']);
  const { body } = await club.ada.get(pathBelowApi(batchId));
  expect(body.stage).toBe('set');
});

/** Nothing sets in the minute in which it is seeded. */
async function seedEarlier(batchId: string): Promise<void> {
  await service.database.query(
    `update batch_step set at = at - interval '9 days' where batch_id = $1`,
    [batchId],
  );
}

test('what is late comes first, and says by how much', async () => {
  const { batchId } = await aPlannedBatch(club.ada, club, source);
  const bookingId = await aBookingFor(batchId, -3, 24);

  const { tasks, at } = await today(club.ada);

  const [load] = tasks;
  expect(load).toMatchObject({ kind: 'load', bookingId, late: true, isOpen: true });
  expect(load!.lateMinutes).toBe((Date.parse(at) - Date.parse(load!.dueAt!)) / 60_000);
  expect(load!.lateMinutes).toBeGreaterThanOrEqual(120);
  expect(load!.sentence).toContain('Cabinet, place 1');
  expect(load!.cautions.join()).toContain('two people');
});

test('the clock in the sentences is the club’s', async () => {
  const { batchId } = await aPlannedBatch(club.ada, club, source);
  await aBookingFor(batchId, 30, 24);
  const [load] = (await today(club.ada)).tasks;

  const clock = new Intl.DateTimeFormat('en-GB', {
    timeZone: 'Europe/Vienna',
    hour: '2-digit',
    minute: '2-digit',
  });
  expect(load!.sentence).toContain(clock.format(new Date(load!.notBefore!)));
  expect(load).toMatchObject({ isOpen: false, late: false, lateMinutes: null });
});

test('it looks as far ahead as it is asked to', async () => {
  const { batchId } = await aPlannedBatch(club.ada, club, source);
  await aBookingFor(batchId, 10 * 24, 24);

  expect(await kinds(club.ada)).toEqual([]);
  expect(await kinds(club.ada, '?daysAhead=9')).toEqual([]);
  expect(await kinds(club.ada, '?daysAhead=11')).toEqual(['load']);
});

test('a member sees their own, and the whole room when they ask for it', async () => {
  await aSeededBatch(club.ada, club, source, daysAgo(6));

  expect(await kinds(club.ben)).toEqual([]);
  expect((await today(club.ben)).honey).toEqual([]);
  const all = await today(club.ben, '?whose=all');
  expect(all.tasks.map(({ kind, member }) => [kind, member.id])).toEqual([
    ['pot', club.ada.memberId],
    ['check', club.ada.memberId],
  ]);
  expect(all.honey).toHaveLength(1);
  // What others filed is not Ben's to take back.
  expect(all.undo).toEqual([]);
  const other = await aClub(service);
  await other.ada.get(`${club.path}/today`).expect(404);
});

test('honey in the room is shown with its stage, its places and when it is expected to have set', async () => {
  const { batchId, path } = await aSeededBatch(club.ada, club, source, daysAgo(2));
  const bookingId = await aBookingFor(batchId, -24, 240, 'cool');
  await club.ada.post(`${path}/setting-checks`, { at: daysAgo(1), state: 'liquid' }).expect(201);

  const { honey } = await today(club.ada);

  expect(honey).toMatchObject([
    { stage: 'seeded', places: [{ bookingId, stationName: 'Cabinet', places: [1] }] },
  ]);
  const { body } = await club.ada.get(`${club.path}/setting-forecast?batchId=${batchId}`);
  const likely = (body.forecast.setBy as { certaintyPercent: number; by: { at: string } }[]).find(
    ({ certaintyPercent }) => certaintyPercent === 50,
  );
  // Both go by the hour in which they are asked.
  expect(
    Math.abs(Date.parse(String(honey[0]!['expectedSetAt'])) - Date.parse(likely!.by.at)),
  ).toBeLessThan(3_600_000);
});

test('honey of a source that never sets is not forecast', async () => {
  const never = await service.prisma.floralSource.create({
    data: { clubId: club.clubId, name: 'Robinia', grain: 'fine', sets: false },
  });
  await aSeededBatch(club.ada, club, never.id, daysAgo(2));

  expect((await today(club.ada)).honey).toMatchObject([{ expectedSetAt: null }]);
});

test('what was booked for a batch and is needed no more is to be cleared, and releasing it does that', async () => {
  const { batchId, path } = await aPlannedBatch(club.ada, club, source);
  await aBookingFor(batchId, -30, 48);
  await club.ada.post(`${path}/steps`, { kind: 'loaded', at: minutesAgo(1700) }).expect(201);
  await club.ada.post(`${path}/steps`, { kind: 'cleared', at: minutesAgo(5) }).expect(201);

  const clear = (await today(club.ada)).tasks.find(({ kind }) => kind === 'clear')!;
  await send(club.ada, clear).expect(200);

  expect(await kinds(club.ada)).not.toContain('clear');
});

test('a booking without a batch that ended with honey in it is to be cleared', async () => {
  const { id } = await service.prisma.booking.create({
    data: {
      clubId: club.clubId,
      stationId: await cabinet(),
      memberId: club.ada.memberId,
      duty: 'warm',
      minDeciC: 400,
      maxDeciC: 450,
      startsAt: new Date(daysAgo(2)),
      endsAt: new Date(daysAgo(1)),
      arrivedAt: new Date(daysAgo(2)),
      changeoverMinutes: 120,
    },
  });
  const [task, ...others] = (await today(club.ada)).tasks;
  expect(others).toEqual([]);
  expect(task).toMatchObject({ kind: 'clear', bookingId: id, batch: null, late: true });
});

test('borrowed seed is to be given back by its day; what was given back in kind is asked for no more', async () => {
  const seed = await aLot(club.ada, club, source, { kind: 'seed', massKg: 5 });
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 5 });
  const loan = { lotId: seed, borrowerId: club.ben.memberId, massKg: 1.5, at: minutesAgo(9) };
  const dueOn = new Date(Date.now() + 3 * 86_400_000).toISOString().slice(0, 10);
  await club.ada.post(`${club.path}/loans`, { ...loan, dueOn }).expect(201);
  const [task] = (await today(club.ben)).tasks;
  expect(task).toMatchObject({ kind: 'return-loan', late: false });
  const [year, , day] = dueOn.split('-').map(Number);
  expect(task!.sentence).toMatch(new RegExp(`by \\w+,? ${day} \\w+ ${year}\\.$`));
  expect(task!.request).toMatchObject({ body: { massKg: 1.5 }, fillIn: ['#/lotId'] });
  expect(await kinds(club.ada)).toEqual([]);
  await send(club.ben, task!, { lotId: bens, massKg: 0.5 }).expect(201);
  const [left] = (await today(club.ben)).tasks;
  expect(left!.request.body).toMatchObject({ massKg: 1 });
  await send(club.ben, left!, { lotId: bens }).expect(201);
  expect(await kinds(club.ben)).toEqual([]);
});

test('the seed that is reserved for a batch stands in the request', async () => {
  const { batchId, seedId, path } = await aPlannedBatch(club.ada, club, source);
  await service.prisma.batchSeed.create({
    data: { clubId: club.clubId, batchId, lotId: seedId, massG: 2000 },
  });
  await club.ada.post(`${path}/steps`, { kind: 'cleared', at: minutesAgo(5) }).expect(201);

  const seeding = (await today(club.ada)).tasks.find(({ kind }) => kind === 'seed')!;
  expect(seeding.request).toMatchObject({
    fillIn: [],
    body: { seed: [{ lotId: seedId, massKg: 2 }] },
  });
});

test('without honey that sets it takes one statement, beside the one that finds the caller', async () => {
  await aPlannedBatch(club.ada, club, source);
  const path = `${club.path}/today`;
  await club.ada.get(path);
  expect(await countStatements(() => club.ada.get(path).expect(200))).toBe(2);
});

describe('what was filed by mistake', () => {
  test('can be taken back within minutes, by its member, and stays in the history', async () => {
    const { batchId, path } = await aPlannedBatch(club.ada, club, source);
    await club.ada.post(`${path}/steps`, { kind: 'loaded', at: minutesAgo(5) }).expect(201);
    await club.ada.post(`${path}/steps`, { kind: 'cleared', at: minutesAgo(4) }).expect(201);
    const [undo, ...others] = (await today(club.ada)).undo;
    expect([undo!.what, others]).toEqual(['step', []]);

    const { body } = await send(club.ada, undo!).expect(200);

    expect([body.id, body.stage]).toEqual([batchId, 'loaded']);
    await send(club.ada, undo!).expect(404);
    await send(club.ada, (await today(club.ada)).undo[0]!).expect(200);
    expect((await club.ada.get(path)).body.stage).toBe('planned');
    const audit = await club.steward.get(`${club.path}/audit?subjectId=${batchId}`);
    const actions = (audit.body.items as { action: string }[]).map(({ action }) => action);
    expect(actions.filter((action) => action === 'batch.step-taken-back')).toHaveLength(2);
  });

  test.each([
    ['seeded', /ledger/],
    ['set', /strike/],
  ])('stays when it is %s, and it is said why', async (kind, words) => {
    const { path } = await aSeededBatch(club.ada, club, source, daysAgo(9));
    await club.ada.post(`${path}/setting-checks`, { at: minutesAgo(1), state: 'set' }).expect(201);
    const { body } = await club.ada.get(`${path}/steps`);
    const step = (body.items as { id: string; kind: string }[]).find((one) => one.kind === kind)!;

    const refused = await club.ada.post(`${path}/steps/${step.id}/take-back`);

    expect([refused.status, refused.body.type]).toEqual([409, '/problems/step-stays']);
    expect(refused.body.detail).toMatch(words);
  });

  test('stays when a later step builds on it, when it is old, or when it is another member’s', async () => {
    const { path } = await aPlannedBatch(club.ada, club, source);
    const file = async (kind: string, minutes: number) => {
      const { body } = await club.ada.post(`${path}/steps`, { kind, at: minutesAgo(minutes) });
      return `${path}/steps/${String(body.id)}/take-back`;
    };
    const loaded = await file('loaded', 9);
    const cleared = await file('cleared', 8);

    const followed = await club.ada.post(loaded);
    expect([followed.status, followed.body.detail]).toEqual([409, expect.stringMatching(/later/)]);
    await club.ben.post(cleared).expect(403);
    await service.prisma.batchStep.updateMany({
      where: { clubId: club.clubId, kind: 'cleared' },
      data: { recordedAt: new Date(Date.now() - 16 * 60_000) },
    });
    const old = await club.ada.post(cleared);
    expect([old.status, old.body.detail]).toEqual([409, expect.stringMatching(/15 minutes/)]);
    expect((await today(club.ada)).undo).toEqual([]);
  });

  test('a look can be struck out from the same list', async () => {
    const { path } = await aSeededBatch(club.ada, club, source, daysAgo(9));
    await club.ben.post(`${path}/setting-checks`, { at: minutesAgo(1), state: 'set' }).expect(201);

    // Ben sees it where he sees the whole room: the batch is Ada's.
    const [undo] = (await today(club.ben, '?whose=all')).undo;
    expect(undo!.request.fillIn).toEqual(['#/because']);
    await send(club.ben, undo!, { because: 'The wrong shelf.' }).expect(200);
    expect((await club.ada.get(path)).body.stage).toBe('seeded');
  });

  test('given up by mistake: its seed is reserved again, unless it is promised elsewhere', async () => {
    const { batchId, seedId, path } = await aPlannedBatch(club.ada, club, source);
    await service.prisma.batchSeed.create({
      data: { clubId: club.clubId, batchId, lotId: seedId, massG: 4000, active: false },
    });
    const { body: step } = await club.ada
      .post(`${path}/steps`, { kind: 'abandoned', at: minutesAgo(1) })
      .expect(201);
    const back = `${path}/steps/${String(step.id)}/take-back`;
    const other = await aPlannedBatch(club.ada, club, source);
    const key = { clubId: club.clubId, batchId: other.batchId, lotId: seedId };
    await service.prisma.batchSeed.create({ data: { ...key, massG: 2000 } });

    const refused = await club.ada.post(back);
    expect([refused.status, refused.body.type]).toEqual([409, '/problems/seed-reserved']);
    await service.prisma.batchSeed.delete({ where: { clubId_batchId_lotId: key } });
    await club.ada.post(back).expect(200);

    const [reserved] = await service.prisma.batchSeed.findMany({ where: { clubId: club.clubId } });
    expect(reserved).toMatchObject({ batchId, active: true });
  });
});
