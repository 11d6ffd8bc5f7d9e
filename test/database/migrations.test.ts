import { differenceToSchema, migrationStatus } from '../../src/platform/migrations';
import { aDatabase, type TestDatabase } from '../support/database';

let database: TestDatabase;

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());

test('schema.prisma and the migrations agree', async () => {
  expect(await differenceToSchema(database.url)).toMatch(/^-- This is an empty migration\.\s*$/);
});

test('a migrated database has nothing left to apply', async () => {
  expect(await migrationStatus(database.url)).toEqual({ pending: [], edited: [] });
});

test('every club table has a key that starts with the club, and every reference between club tables carries it', async () => {
  const installationWide = [
    'person',
    'session',
    'token',
    'club',
    'idempotency_key',
    'rate_limit',
    '_prisma_migrations',
  ];
  const tables = await database.query<{ name: string; key: string[] }>(`
    select c.relname as name, (select array_agg(a.attname::text order by k.position)
      from unnest(i.indkey) with ordinality as k(number, position)
      join pg_attribute a on a.attrelid = c.oid and a.attnum = k.number) as key
    from pg_class c join pg_namespace n on n.oid = c.relnamespace and n.nspname = 'public'
    left join pg_index i on i.indrelid = c.oid and i.indisprimary where c.relkind = 'r'`);
  const clubTables = tables.filter(({ name }) => !installationWide.includes(name));
  expect(clubTables.length).toBeGreaterThan(20);
  for (const { name, key } of clubTables) expect([name, key[0]]).toEqual([name, 'club_id']);

  const references = await database.query<{ from: string; to: string; columns: string[] }>(`
    select f.conrelid::regclass::text as from, f.confrelid::regclass::text as to,
      (select array_agg(a.attname::text) from pg_attribute a where a.attrelid = f.conrelid and a.attnum = any(f.conkey)) as columns
    from pg_constraint f where f.contype = 'f' and f.connamespace = 'public'::regnamespace`);
  const names = new Set(clubTables.map(({ name }) => name));
  const between = references.filter(({ from, to }) => names.has(from) && names.has(to));
  expect(between.length).toBeGreaterThan(30);
  for (const reference of between) {
    expect([reference, reference.columns.includes('club_id')]).toEqual([reference, true]);
  }
});
