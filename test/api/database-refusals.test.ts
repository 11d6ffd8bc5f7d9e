import { randomUUID } from 'node:crypto';
import { Refusal, type RefusalCode } from '../../src/core/refusal';
import type { AnyCaller } from '../../src/platform/caller';
import { Database, type Transaction } from '../../src/platform/database';
import { refusalFromDatabase } from '../../src/platform/database-refusal';
import { Prisma } from '../../src/platform/prisma-client/client';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// Every kind of refusal of PostgreSQL (its manual, appendix A), provoked in a real one, by each way in which the service reaches it.

const service = useService();
const caller: AnyCaller = { requestId: 'test', ifMatch: null, idempotency: null };

let database: Database;

beforeAll(async () => {
  database = service.app.get(Database);
  await service.database.query(`
    create table pail (
      number int primary key, name text not null, short varchar(3), mass_g int check (mass_g > 0),
      inside int references pail, stands int4range, exclude using gist (stands with &&));
    create table note (text text primary key);
    insert into pail (number, name, mass_g, stands) values (1, 'first', 1000, '[1,5)');
    insert into pail (number, name, inside) values (2, 'second', 1);`);
});

const noise = Array.from({ length: 400 }, () => randomUUID()).join('');

const refused: [name: string, sql: string, code: RefusalCode, values?: unknown[]][] = [
  ['23505 unique', `insert into pail (number, name) values (1, 'x')`, 'duplicate'],
  [
    '23P01 exclusion',
    `insert into pail (number, name, stands) values (3, 'x', '[4,6)')`,
    'invalid',
  ],
  ['23503 names nothing', `insert into pail (number, name, inside) values (3, 'x', 9)`, 'invalid'],
  ['23503 is named', `delete from pail where number = 1`, 'in-use'],
  ['23514 check', `update pail set mass_g = 0`, 'invalid'],
  ['23502 null', `update pail set name = null`, 'invalid'],
  ['22001 too long', `update pail set short = 'four'`, 'invalid'],
  ['22003 out of range', `update pail set mass_g = 1e10`, 'invalid'],
  ['22007 no time', `select 'noon'::timestamptz`, 'invalid'],
  ['22008 no such day', `select '2026-02-30'::date`, 'invalid'],
  ['22012 division by zero', `select 1 / (number - number) from pail`, 'invalid'],
  ['22P02 no number', `select 'x'::int`, 'invalid'],
  ['22021 NUL', `insert into note values ($1)`, 'invalid', ['a\u0000b']],
  ['54000 too long for an index', `insert into note values ($1)`, 'invalid', [noise]],
  ['57014 takes too long', `set local statement_timeout = 20; select pg_sleep(2)`, 'unavailable'],
  [
    '57P01 ended by whoever runs it',
    `select pg_terminate_backend(pg_backend_pid())`,
    'unavailable',
  ],
];

async function refusalOf(work: Promise<unknown>): Promise<unknown> {
  return work.then(
    () => 'it was not refused',
    (error: unknown) => error,
  );
}

function codeOf(error: unknown): string {
  return error instanceof Refusal ? error.code : 'failure';
}

describe.each(refused)('%s', (_, sql, code, values = []) => {
  const statements = sql.split('; ');

  test('in a transaction', async () => {
    const error = await refusalOf(
      database.write(caller, async (tx) => {
        for (const statement of statements) await tx.$queryRawUnsafe(statement, ...values);
      }),
    );
    expect(codeOf(error)).toBe(code);
    // Whatever happened, the next one works.
    await database.write(caller, (tx) => tx.$queryRaw`select 1`);
  });

  // A setting of a transaction needs one.
  if (statements.length > 1) return;
  test('in a statement of its own', async () => {
    const query = { text: sql, values } as unknown as Prisma.Sql;
    const error = await refusalOf(database.rows(query));
    expect(codeOf(error)).toBe(code);
    expect(await database.rows(Prisma.sql`select 1 as one`)).toEqual([{ one: 1 }]);
  });
});

describe('a write by model', () => {
  const person = (email: string) => ({ name: 'Ada', email, passwordHash: 'none' });

  test('that is not unique names the field', async () => {
    const email = `${randomUUID()}@example.org`;
    await database.prisma.person.create({ data: person(email) });

    const again = () => database.write(caller, (tx) => tx.person.create({ data: person(email) }));

    expect(await refusalOf(again())).toMatchObject({
      code: 'duplicate',
      more: { errors: [{ pointer: '#/email' }] },
    });
    // How it arrives: what database-refusal.ts reads.
    expect(await refusalOf(database.prisma.person.create({ data: person(email) }))).toMatchObject({
      code: 'P2002',
      meta: { driverAdapterError: { cause: { originalCode: '23505' } } },
    });
  });

  test('that names what is not there, or in another club, is told no more than that', async () => {
    const club = await aClub(service);
    const other = await aClub(service);
    const station = await database.prisma.station.create({
      data: { clubId: other.clubId, name: 'S', placeLoadG: 1, changeoverMinutes: 0 },
    });
    const details = [];
    for (const stationId of [station.id, randomUUID()]) {
      const place = { clubId: club.clubId, stationId, number: 1 };
      const error = await refusalOf(
        database.write(caller, (tx) => tx.place.create({ data: place })),
      );
      expect(codeOf(error)).toBe('invalid');
      details.push((error as Refusal).detail);
    }
    expect(details[0]).toBe(details[1]);
  });

  test('that something still needs is refused as that', async () => {
    const { clubId } = await aClub(service);
    const error = await refusalOf(
      database.write(caller, (tx) => tx.club.delete({ where: { id: clubId } })),
    );
    expect(codeOf(error)).toBe('in-use');
  });

  test('that breaks a promise is refused, and so is one that breaks it at the end', async () => {
    const { clubId, ada } = await aClub(service);
    const bearsNothing = { clubId, name: 'S', placeLoadG: 0, changeoverMinutes: 0 };
    const error = await refusalOf(
      database.write(caller, (tx) => tx.station.create({ data: bearsNothing })),
    );
    expect(codeOf(error)).toBe('invalid');

    const madeOfNothing = await refusalOf(
      database.write(
        caller,
        (tx) => tx.$executeRaw`
          insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, input_mass_g, depth, moisture_centi_percent)
          values (${clubId}::uuid, 'creamed', 'x', ${ada.memberId}::uuid, 5, 5, 5, 1, 1700)`,
      ),
    );
    expect(codeOf(madeOfNothing)).toBe('invalid');
  });

  test('of a row that has gone is refused as not found', async () => {
    const error = await refusalOf(
      database.write(caller, (tx) => tx.club.delete({ where: { id: randomUUID() } })),
    );
    expect(codeOf(error)).toBe('not-found');
  });
});

describe('a transaction that another gets in the way of', () => {
  const grow = (number: number) =>
    Prisma.sql`update pail set mass_g = coalesce(mass_g, 0) + 1 where number = ${number}`;

  async function snapshot(tx: Transaction): Promise<void> {
    await tx.$executeRaw`set transaction isolation level repeatable read`;
    await tx.$queryRaw`select from pail`;
  }

  test('is run again (40001)', async () => {
    let tries = 0;
    await database.write(caller, async (tx) => {
      await snapshot(tx);
      tries += 1;
      if (tries === 1) await database.rows(grow(1));
      await tx.$executeRaw(grow(1));
    });
    expect(tries).toBe(2);
  });

  test('every time is told to come again later (40001)', async () => {
    let tries = 0;
    const error = await refusalOf(
      database.write(caller, async (tx) => {
        await snapshot(tx);
        tries += 1;
        await database.rows(grow(1));
        await tx.$executeRaw(grow(1));
      }),
    );
    expect(error).toMatchObject({ code: 'unavailable', more: { retryAfterSeconds: 1 } });
    expect(tries).toBe(4);
  });

  test('at its very end is run again, too (40001 on COMMIT)', async () => {
    const skews: string[] = [];
    const skew = (name: string, meet: () => Promise<void>) =>
      database.write(caller, async (tx) => {
        await tx.$executeRaw`set transaction isolation level serializable`;
        await tx.$queryRaw`select count(*) from note`;
        skews.push(name);
        if (skews.filter((one) => one === name).length === 1) await meet();
        await tx.$executeRaw`insert into note values (${name})`;
      });
    const meet = meeting(2);
    await Promise.all([skew('left', meet), skew('right', meet)]);
    expect(skews.length).toBe(3);
  });

  test('by holding what it wants and wanting what it holds is run again (40P01)', async () => {
    let tries = 0;
    const meet = meeting(2);
    const both = ([first, second]: [number, number]) =>
      database.write(caller, async (tx) => {
        tries += 1;
        await tx.$executeRaw(grow(first));
        if (tries <= 2) await meet();
        await tx.$executeRaw(grow(second));
      });
    await Promise.all([both([1, 2]), both([2, 1])]);
    expect(tries).toBe(3);
  });

  test('for too long is told to come again later (55P03)', async () => {
    await database.write(caller, async (tx) => {
      await tx.$executeRaw(grow(1));
      const error = await refusalOf(
        database.write(caller, async (other) => {
          await other.$executeRaw`set local lock_timeout = 50`;
          await other.$executeRaw(grow(1));
        }),
      );
      expect(codeOf(error)).toBe('unavailable');
    });
  });
});

/** Waits until so many have come. */
function meeting(count: number): () => Promise<void> {
  let open: () => void;
  const isOpen = new Promise<void>((resolve) => (open = resolve));
  let come = 0;
  return () => {
    come += 1;
    if (come === count) open();
    return isOpen;
  };
}

describe('no answer from PostgreSQL', () => {
  test('because it is not there is told as that', async () => {
    const away = new Database('postgres://127.0.0.1:1/none', { poolSize: 2 });
    const ways = [
      away.rows(Prisma.sql`select 1`),
      away.write(caller, (tx) => tx.$queryRaw`select 1`),
      away.write(caller, (tx) => tx.club.findMany()),
    ];
    for (const way of ways) expect(codeOf(await refusalOf(way))).toBe('unavailable');
    expect(await away.isReady()).toBe(false);
    await away.onApplicationShutdown();
  });

  test('because its connections are taken is told as that', async () => {
    const [row] = await database.rows<{ name: string }>(
      Prisma.sql`select current_database() as name`,
    );
    const full = new Database(service.database.url, { poolSize: 2 });
    await service.database.query(`alter database "${row!.name}" connection limit 0`);
    // Whoever may do everything is not counted.
    await service.database.query(`create role keeper login password 'wax'`);
    const url = new URL(service.database.url);
    url.username = 'keeper';
    url.password = 'wax';
    const stranger = new Database(url.href, { poolSize: 2 });
    const error = await refusalOf(stranger.rows(Prisma.sql`select 1`));
    await service.database.query(`alter database "${row!.name}" connection limit -1`);
    await service.database.query('drop role keeper');
    await Promise.all([stranger.onApplicationShutdown(), full.onApplicationShutdown()]);
    expect(codeOf(error)).toBe('unavailable');
  });

  test('because the transaction took too long is told as that', async () => {
    const error = await refusalOf(
      database.prisma.$transaction(
        async (tx) => {
          await new Promise((resolve) => setTimeout(resolve, 200));
          await tx.$queryRaw`select 1`;
        },
        { timeout: 50 },
      ),
    );
    expect(error).toMatchObject({ code: 'P2028' });
    expect(codeOf(refusalFromDatabase(error))).toBe('unavailable');
  });

  test('because all connections of the pool are busy is told as that', async () => {
    const error = await refusalOf(
      database.prisma
        .$transaction(() => Promise.resolve(), { maxWait: 1 })
        .then(async () => {
          const waits = Array.from({ length: 30 }, () =>
            database.prisma.$transaction((tx) => tx.$queryRaw`select pg_sleep(0.1)`, {
              maxWait: 1,
            }),
          );
          await Promise.all(waits);
        }),
    );
    expect(codeOf(refusalFromDatabase(error))).toBe('unavailable');
  });
});

test('what is nobody’s fault but ours stays what it is', () => {
  for (const error of [new TypeError('x'), 'text', null, { code: '42P01' }]) {
    expect(refusalFromDatabase(error)).toBe(error);
  }
});
