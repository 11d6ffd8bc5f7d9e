import { once } from 'node:events';
import http from 'node:http';
import pg from 'pg';
import { startCopy } from '../support/copy';
import { aDatabase } from '../support/database';

// A connection that is kept open after its last answer would hold the service for 72 seconds: longer than a test may take.
test('a service that is asked to stop answers what has begun, and waits for no connection that is kept open', async () => {
  const database = await aDatabase();
  const copy = await startCopy(database.url);
  const blocker = new pg.Client({ connectionString: database.url });
  await blocker.connect();
  await blocker.query('begin; lock table person');
  const agent = new http.Agent({ keepAlive: true });
  const request = http.request(`${copy.url}/api/v1/people`, {
    method: 'POST',
    agent,
    headers: { 'content-type': 'application/json' },
  });
  const answered = once(request, 'response') as Promise<[http.IncomingMessage]>;
  request.end(
    JSON.stringify({ name: 'Ada', email: 'ada@example.org', password: 'three lamps hum at dusk' }),
  );
  await untilBlocked(database);

  const stopped = copy.stop();
  await refused(copy.url);
  await blocker.query('commit');
  const [answer] = await answered;
  await once(answer.resume(), 'end');

  expect(answer.statusCode).toBe(201);
  expect(await stopped).toBe(0);
  agent.destroy();
  await blocker.end();
  await database.drop();
});

async function untilBlocked(database: Awaited<ReturnType<typeof aDatabase>>): Promise<void> {
  const waiting =
    'select from pg_locks where not granted and database = (select oid from pg_database where datname = current_database())';
  while ((await database.query(waiting)).length === 0) await pause();
}

/** Waits until the service takes no new connection. */
async function refused(url: string): Promise<void> {
  const isOpen = () =>
    fetch(`${url}/health/live`, { headers: { connection: 'close' } }).then(
      () => true,
      () => false,
    );
  while (await isOpen()) await pause();
}

function pause(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 50));
}
