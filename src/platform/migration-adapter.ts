import { randomUUID } from 'node:crypto';
import { PrismaPg } from '@prisma/adapter-pg';
import {
  ColumnTypeEnum,
  type SqlDriverAdapter,
  type SqlMigrationAwareDriverAdapterFactory,
} from '@prisma/driver-adapter-utils';
import pg from 'pg';

export interface MigrationAdapter extends SqlMigrationAwareDriverAdapterFactory {
  /** Closes the connections that the engine leaves open. */
  close(): Promise<void>;
}

/**
 * Prisma's PostgreSQL adapter as the schema engine needs it. The plain one cuts scripts at every semicolon (also inside functions),
 * cannot read PostgreSQL's internal type "char", and takes the database itself for its shadow when given an address.
 */
export function migrationAdapter(databaseUrl: string): MigrationAdapter {
  const pools: CharPool[] = [];
  const shadows: string[] = [];
  const connect = (url: string): Promise<SqlDriverAdapter> => {
    const pool = new CharPool({ connectionString: url, max: 2 });
    pools.push(pool);
    return adapterOver(pool);
  };
  return {
    provider: 'postgres',
    adapterName: '@prisma/adapter-pg',
    connect: () => connect(databaseUrl),
    async connectToShadowDb() {
      const name = `shadow_${randomUUID()}`;
      await execute(databaseUrl, `create database "${name}"`);
      shadows.push(name);
      const url = new URL(databaseUrl);
      url.pathname = `/${name}`;
      return connect(url.href);
    },
    async close() {
      for (const pool of pools) await pool.end();
      for (const name of shadows) await execute(databaseUrl, `drop database "${name}"`);
    },
  };
}

async function adapterOver(pool: CharPool): Promise<SqlDriverAdapter> {
  const adapter = await new PrismaPg(pool).connect();
  const queryRaw = adapter.queryRaw.bind(adapter);
  adapter.queryRaw = async (query) => {
    const answer = await queryRaw(query);
    for (const column of pool.charColumns.get(answer.rows) ?? []) {
      answer.columnTypes[column] = ColumnTypeEnum.Character;
    }
    return answer;
  };
  adapter.executeScript = async (script: string) => {
    await pool.query(script);
  };
  return adapter;
}

async function execute(databaseUrl: string, sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  await client.query(sql).finally(() => client.end());
}

const internalChar = 18;
const text = 25;

/** A pool that passes columns of type "char" on as text, and remembers which they were. */
class CharPool extends pg.Pool {
  readonly charColumns = new WeakMap<object, number[]>();

  // eslint-disable-next-line @typescript-eslint/no-explicit-any -- pg declares this method with ten overloads
  override async query(...args: any[]): Promise<any> {
    const query = super.query.bind(this) as (
      ...args: unknown[]
    ) => Promise<pg.QueryResult | pg.QueryResult[]>;
    const result = await query(...(args as unknown[]));
    // A script of several statements answers with an array, and nobody reads that.
    if (Array.isArray(result)) return result;
    const columns = [...result.fields.keys()].filter(
      (column) => result.fields[column]?.dataTypeID === internalChar,
    );
    for (const column of columns) Object.assign(result.fields[column] ?? {}, { dataTypeID: text });
    this.charColumns.set(result.rows, columns);
    return result;
  }
}
