import { createRequire } from 'node:module';
import pg from 'pg';

const require = createRequire(import.meta.url);

/**
 * Runs the service once for each thing to be measured and writes down the statements that reach the database, with their values: the
 * baseline sends the same.
 */
export async function recordStatements(databaseUrl, club) {
  const { dress } = require('../../dist/src/app.js');
  const { readSettings } = require('../../dist/src/platform/settings.js');
  const app = await dress(databaseUrl, readSettings({ LOG_LEVEL: 'silent' }));
  await app.listen(0, '127.0.0.1');
  const url = await app.getUrl();
  const path = `/api/v1/clubs/${club.clubId}`;
  const headers = { authorization: `Bearer ${club.token}`, 'content-type': 'application/json' };
  const get = (address) => fetch(`${url}${address}`, { headers });

  const reads = [];
  for (const [name, address] of [
    ['bookings, a page of 50', `${path}/bookings?limit=50`],
    ['one lot', `${path}/lots/${club.lotId}`],
  ]) {
    reads.push({ name, path: address, statements: await recording(() => get(address)) });
  }

  const wish = { stationId: club.stationId, duty: 'cool', minC: 10, maxC: 14, places: 1 };
  const times = {
    startsAt: new Date('2048-01-01T00:00:00Z'),
    endsAt: new Date('2048-01-01T01:00:00Z'),
  };
  const statements = await recording(async () => {
    const body = JSON.stringify({ ...wish, ...times });
    const answer = await fetch(`${url}${path}/bookings`, { method: 'POST', headers, body });
    if (answer.status !== 201) throw new Error(await answer.text());
  });
  await app.close();
  return {
    reads,
    booking: { wish, statementsFor: (next) => statements.map((one) => at(one, times, next)) },
  };
}

async function recording(deed) {
  const statements = [];
  const query = pg.Client.prototype.query;
  pg.Client.prototype.query = function (...args) {
    const [first, second] = args;
    if (typeof first === 'string')
      statements.push({ text: first, values: Array.isArray(second) ? second : [] });
    else if (first.text !== undefined) {
      const { name, text, values } = first;
      statements.push({ ...(name && { name }), text, values: (values ?? []).map(plain) });
    }
    return query.apply(this, args);
  };
  await deed();
  pg.Client.prototype.query = query;
  return statements;
}

function plain(value) {
  return value instanceof Uint8Array ? `\\x${Buffer.from(value).toString('hex')}` : value;
}

/** The statement with other times in it: a value that is one of the recorded times, in whichever form, becomes the new one. */
function at(statement, recorded, next) {
  const swap = (value) => {
    if (!(value instanceof Date) && typeof value !== 'string') return value;
    const instant = new Date(
      typeof value === 'string' ? value.replace(' ', 'T').replace(/Z?$/, 'Z') : value,
    ).getTime();
    if (Number.isNaN(instant)) return value;
    const shift = next.startsAt.getTime() - recorded.startsAt.getTime();
    const isNear = Math.abs(instant - recorded.startsAt.getTime()) < 100 * 86_400_000;
    return isNear ? new Date(instant + shift).toISOString() : value;
  };
  return { ...statement, values: statement.values.map(swap) };
}
