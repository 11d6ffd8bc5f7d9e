import { randomUUID } from 'node:crypto';
import pg from 'pg';

export interface TestDatabase {
  url: string;
  /** Runs SQL beside the service. */
  query<Row extends object = Record<string, unknown>>(
    sql: string,
    values?: unknown[],
  ): Promise<Row[]>;
  drop(): Promise<void>;
}

/** A migrated, empty database of its own. */
export async function aDatabase(): Promise<TestDatabase> {
  const template = process.env['TEST_TEMPLATE_URL'];
  if (template?.endsWith('/test_template') !== true) {
    throw new Error('Tests run only on the database that their set-up made.');
  }
  const name = `test_${randomUUID().replaceAll('-', '')}`;
  await asAdmin(template, `create database ${name} template test_template`);
  const url = template.replace(/test_template$/, name);
  const pool = new pg.Pool({ connectionString: url, max: 4 });
  // A dropped database ends idle connections.
  pool.on('error', () => undefined);
  return {
    url,
    async query<Row extends object>(sql: string, values: unknown[] = []) {
      // pool.query() would throw the connection away with each refusal.
      const client = await pool.connect();
      return await client
        .query<Row>(sql, values)
        .then(({ rows }) => rows)
        .finally(() => {
          client.release();
        });
    },
    async drop() {
      await pool.end();
      await asAdmin(template, `drop database ${name} with (force)`);
    },
  };
}

async function asAdmin(template: string, sql: string): Promise<void> {
  const client = new pg.Client({
    connectionString: template.replace(/test_template$/, 'postgres'),
  });
  await client.connect();
  // Two copies of one template at a time refuse each other.
  await client.query('select pg_advisory_lock(1)');
  await client.query(sql).finally(() => client.end());
}
