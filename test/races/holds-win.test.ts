import pg from 'pg';
import { aLot, aSource, minutesAgo } from '../support/lots';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// Whoever takes something out of a lot and whoever holds it meet on one lock: what is not committed before the hold is refused after it.

const service = useService();
const open: pg.Client[] = [];

afterEach(() => Promise.all(open.splice(0).map((client) => client.end())));

async function aClient(): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: service.database.url });
  await client.connect();
  open.push(client);
  return client;
}

async function aSeed(club: ClubWorld, massKg = 50): Promise<string> {
  return aLot(club.ada, club, await aSource(service, club.clubId), { kind: 'seed', massKg });
}

async function movementsIn(clubId: string): Promise<number> {
  const [row] = await service.database.query<{ count: number }>(
    'select count(*)::int as count from lot_movement where club_id = $1',
    [clubId],
  );
  return row!.count;
}

test('of a hundred withdrawals from a seed line none is committed after the hold on its first seed', async () => {
  const club = await aClub(service);
  const first = await aSeed(club);
  const loan = { borrowerId: club.ben.memberId, massKg: 20, at: minutesAgo(30), lotId: first };
  const { body } = await club.ada.post(`${club.path}/loans`, loan).expect(201);
  const lots = [first, String(body.toLot.id)];
  const withdraw = (index: number) =>
    club.steward
      .post(`${club.path}/lots/${lots[index % 2]!}/withdrawals`, {
        kind: 'lost',
        massKg: 0.01,
        at: minutesAgo(1),
      })
      .then(({ status, body: { type } }) => (status === 201 ? 'taken' : String(type)));

  const early = Array.from({ length: 50 }, (_, index) => withdraw(index));
  await Promise.race(early);
  const placing = club.ben
    .post(`${club.path}/lots/${first}/holds`, { reason: 'Vinegar' })
    .expect(201)
    .then(() => movementsIn(club.clubId));
  const late = Array.from({ length: 50 }, (_, index) => withdraw(index));
  const whenHeld = await placing;
  const answers = await Promise.all([...early, ...late]);

  expect(await movementsIn(club.clubId)).toBe(whenHeld);
  const taken = answers.filter((answer) => answer === 'taken').length;
  // The loan is a movement, too.
  expect(taken).toBe(whenHeld - 1);
  expect(taken).toBeGreaterThan(0);
  expect(answers.filter((answer) => answer === '/problems/on-hold')).toHaveLength(100 - taken);
  expect(taken).toBeLessThan(100);
});

test('the database keeps the promise by itself: a hundred movements in plain SQL against one hold', async () => {
  const club = await aClub(service);
  const lotId = await aSeed(club);
  const clients = await Promise.all(Array.from({ length: 20 }, aClient));
  const holder = await aClient();
  let begun = 0;
  const draw = async (client: pg.Client) => {
    const results: string[] = [];
    for (let count = 0; count < 5; count++) {
      await client.query('begin');
      results.push(
        await client
          .query(
            `insert into lot_movement (club_id, lot_id, kind, mass_g, at, recorded_by_id) values ($1, $2, 'lost', 1, now(), $3)`,
            [club.clubId, lotId, club.ada.memberId],
          )
          .then(
            () => 'taken',
            (error: unknown) => (error as pg.DatabaseError).constraint ?? String(error),
          ),
      );
      await client.query('commit');
      begun += 1;
    }
    return results;
  };

  const drawing = Promise.all(clients.map(draw));
  while (begun < 10) await new Promise((resolve) => setImmediate(resolve));
  await holder.query(
    `insert into hold (club_id, lot_id, reason, placed_by_id) values ($1, $2, 'Vinegar', $3)`,
    [club.clubId, lotId, club.ben.memberId],
  );
  const whenHeld = await movementsIn(club.clubId);
  const results = (await drawing).flat();

  expect(await movementsIn(club.clubId)).toBe(whenHeld);
  expect(results.filter((result) => result === 'taken')).toHaveLength(whenHeld);
  expect(whenHeld).toBeGreaterThan(0);
  expect(new Set(results.filter((result) => result !== 'taken'))).toEqual(
    new Set(['lot_movement_not_on_hold']),
  );
});

/** Makes a lot out of all of the other's 20 g in an open transaction, and answers its id. */
async function makeFrom(client: pg.Client, club: ClubWorld, parentId: string): Promise<string> {
  const { rows } = await client.query<{ id: string }>(
    `insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, input_mass_g, depth)
     values ($1, 'seed', 'child', $2, 20, 20, 20, 1) returning id`,
    [club.clubId, club.ada.memberId],
  );
  const { id } = rows[0]!;
  await client.query(
    `insert into lot_input (club_id, child_id, parent_id, mass_g, child_input_mass_g, child_depth, parent_depth, at, recorded_by_id)
     values ($1, $2, $3, 20, 20, 1, 0, now(), $4)`,
    [club.clubId, id, parentId, club.ada.memberId],
  );
  return id;
}

test('a lot born while the hold is placed is waited for, and held', async () => {
  const club = await aClub(service);
  const parentId = await aSeed(club);
  const maker = await aClient();
  await maker.query('begin');
  const childId = await makeFrom(maker, club, parentId);

  let isPlaced = false;
  const placing = club.ben
    .post(`${club.path}/lots/${parentId}/holds`, { reason: 'Vinegar' })
    .expect(201)
    .then((answer) => {
      isPlaced = true;
      return answer;
    });
  await new Promise((resolve) => setTimeout(resolve, 300));
  expect(isPlaced).toBe(false);
  await maker.query('commit');
  const { body } = await placing;

  expect(body.reached.map(({ lotId }: { lotId: string }) => lotId)).toEqual([parentId, childId]);
  const answer = await club.ada.post(`${club.path}/lots/${childId}/withdrawals`, {
    kind: 'lost',
    massKg: 0.001,
    at: new Date().toISOString(),
  });
  expect([answer.status, answer.body.type]).toEqual([409, '/problems/on-hold']);
});

test('a transaction that began before the hold makes nothing of the lot after it', async () => {
  const club = await aClub(service);
  const parentId = await aSeed(club);
  const maker = await aClient();
  await maker.query('begin');
  await maker.query('select remaining_mass_g from lot where id = $1', [parentId]);
  await club.ben.post(`${club.path}/lots/${parentId}/holds`, { reason: 'Vinegar' }).expect(201);

  await expect(makeFrom(maker, club, parentId)).rejects.toMatchObject({
    constraint: 'lot_movement_not_on_hold',
  });
});

test('a transaction with an older view of the club moves nothing at all', async () => {
  const club = await aClub(service);
  const parentId = await aSeed(club);
  const maker = await aClient();
  await maker.query('begin isolation level repeatable read');

  await expect(makeFrom(maker, club, parentId)).rejects.toMatchObject({
    constraint: 'lot_movement_sees_holds',
  });
});
