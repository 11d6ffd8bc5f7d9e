// Measures the service beside a baseline in the same run, and prints ratios: the machines are noisy, absolute numbers mean little.
// `npm run bench -- reads lineage` measures these alone.
//   honey     warming of pails, against small explicit steps on the same grid
//   setting   times: regressions and curves against other libraries' recorded times
//   planning  of whole runs, against asking of every quarter of an hour
//   reads     signed-in GETs against a bare node:http + pg server that sends the very statements that the service sent; bookings against
//             the same transaction, statement by statement, straight through pg; how long others wait while a setting time is computed
//   plans     of whole runs, among 100,000 bookings
//   page      as a phone on a slow network sees it, beside a bare page of as many bytes and the bare fetch of its answers
//   lineage   of a million lots: typical traces through the API, the worst against its statement in bare pg; what holds cost a movement
import { fork } from 'node:child_process';
import { once } from 'node:events';
import { chmod, mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import autocannon from 'autocannon';
import pg from 'pg';
import { compareHoney } from './honey.mjs';
import { comparePlanning } from './planning.mjs';
import { recordStatements } from './record-statements.mjs';
import { fillBatches } from './fill-batches.mjs';
import { fillClub } from './fill-club.mjs';
import { measurePage } from './page.mjs';
import { measurePlans } from './plans.mjs';
import { compareLineage } from './lineage.mjs';
import { compareSetting } from './setting.mjs';
import { compareWhileFitting } from './while-fitting.mjs';

const require = createRequire(import.meta.url);
const dist = (file) => require(`../../dist/src/${file}.js`);
const connections = 16;
const seconds = Number(process.env.BENCH_SECONDS ?? 8);
const rounds = 3;

const names = ['honey', 'setting', 'planning', 'reads', 'plans', 'page', 'lineage'];
const wanted = process.argv.length > 2 ? process.argv.slice(2) : names;
const unknown = wanted.filter((name) => !names.includes(name));
if (unknown.length > 0) throw new Error(`${unknown.join(', ')}: choose of ${names.join(', ')}`);
const isWanted = (name) => wanted.includes(name);

if (isWanted('honey')) compareHoney();
if (isWanted('setting')) compareSetting();
if (isWanted('planning')) comparePlanning();
if (['reads', 'plans', 'page', 'lineage'].some(isWanted)) {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'creaming-room-bench-'));
  await chmod(folder, 0o755);
  const database = await dist('platform/embedded-postgres').startEmbeddedPostgres(folder, 'bench');
  try {
    await dist('platform/migrations').applyMigrations(database.url);
    if (isWanted('page')) await measurePageOf(database.url);
    const club = await fillClub(database.url);
    if (isWanted('reads') || isWanted('plans')) await compareService(database.url, club);
    if (isWanted('lineage')) await compareLineage(database.url, club, start);
  } finally {
    await database.stop();
    await rm(folder, { recursive: true, force: true });
  }
}

async function measurePageOf(databaseUrl) {
  const service = await start('service-process.mjs', { DATABASE_URL: databaseUrl });
  await measurePage(service.url, databaseUrl);
  service.stop();
}

async function compareService(databaseUrl, club) {
  const service = await start('service-process.mjs', { DATABASE_URL: databaseUrl });
  await fillBatches(databaseUrl, club);
  if (isWanted('reads')) await compareWithBare(databaseUrl, club, service.url);
  if (isWanted('plans')) await measurePlans(service.url, databaseUrl, club);
  console.log(`\nmemory of the service afterwards: ${await service.memoryMb()} MB`);
  service.stop();
}

async function compareWithBare(databaseUrl, club, serviceUrl) {
  const recorded = await recordStatements(databaseUrl, club);
  const bare = await start('bare-process.mjs', {
    DATABASE_URL: databaseUrl,
    STATEMENTS: JSON.stringify(recorded.reads),
  });
  console.log(
    `${os.cpus().length} cores, ${connections} connections, ${rounds} rounds of ${seconds} s each\n`,
  );
  for (const { name, path: address } of recorded.reads) {
    await compareReads(name, address, serviceUrl, bare.url, club.token);
  }
  await compareBookings(serviceUrl, databaseUrl, club, recorded.booking);
  bare.stop();
  await compareWhileFitting(serviceUrl, club, recorded.reads[0].path, { connections, seconds });
}

async function start(file, environment) {
  const child = fork(path.join(import.meta.dirname, file), {
    env: { ...process.env, ...environment },
  });
  const [{ url }] = await once(child, 'message');
  return {
    url,
    async memoryMb() {
      child.send('memory');
      const [{ rssMb }] = await once(child, 'message');
      return rssMb;
    },
    stop: () => child.kill(),
  };
}

async function compareReads(name, address, serviceUrl, bareUrl, token) {
  const measure = async (url) => {
    const result = await autocannon({
      url: `${url}${address}`,
      connections,
      duration: seconds,
      headers: { authorization: `Bearer ${token}` },
    });
    if (result.non2xx > 0 || result.errors > 0)
      throw new Error(`${name}: ${result.non2xx} refused`);
    return { perSecond: result.requests.average, p99Ms: result.latency.p99 };
  };
  await measure(serviceUrl);
  const pairs = [];
  for (let round = 0; round < rounds; round++) {
    pairs.push([await measure(serviceUrl), await measure(bareUrl)]);
  }
  report(name, pairs);
}

/** Each booking takes an hour of its own, so that none is refused. */
async function compareBookings(serviceUrl, databaseUrl, club, transaction) {
  let hour = 0;
  const nextTimes = () => {
    const startsAt = Date.UTC(2050, 0, 1) + hour++ * 3_600_000;
    return { startsAt: new Date(startsAt), endsAt: new Date(startsAt + 3_600_000) };
  };
  const throughService = async () => {
    const latencies = [];
    await during(seconds, async () => {
      const began = performance.now();
      const answer = await fetch(`${serviceUrl}/api/v1/clubs/${club.clubId}/bookings`, {
        method: 'POST',
        headers: { authorization: `Bearer ${club.token}`, 'content-type': 'application/json' },
        body: JSON.stringify({ ...transaction.wish, ...nextTimes() }),
      });
      if (answer.status !== 201)
        throw new Error(`booking: ${answer.status} ${await answer.text()}`);
      await answer.arrayBuffer();
      latencies.push(performance.now() - began);
    });
    return rate(latencies);
  };
  const pool = new pg.Pool({ connectionString: databaseUrl, max: 10, options: '-c TimeZone=UTC' });
  const throughPg = async () => {
    const latencies = [];
    await during(seconds, async () => {
      const began = performance.now();
      const client = await pool.connect();
      for (const statement of transaction.statementsFor(nextTimes())) await client.query(statement);
      client.release();
      latencies.push(performance.now() - began);
    });
    return rate(latencies);
  };
  await throughService();
  const pairs = [];
  for (let round = 0; round < rounds; round++) {
    pairs.push([await throughService(), await throughPg()]);
  }
  await pool.end();
  report('book a place', pairs);
}

async function during(duration, deed) {
  const end = performance.now() + duration * 1000;
  const worker = async () => {
    while (performance.now() < end) await deed();
  };
  await Promise.all(Array.from({ length: connections }, worker));
}

function rate(latencies) {
  latencies.sort((a, b) => a - b);
  return {
    perSecond: latencies.length / seconds,
    p99Ms: latencies[Math.floor(latencies.length * 0.99)],
  };
}

function report(name, pairs) {
  const ratios = pairs
    .map(([ours, theirs]) => ours.perSecond / theirs.perSecond)
    .sort((a, b) => a - b);
  const middle = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
  const ours = middle(pairs.map(([one]) => one.perSecond));
  const theirs = middle(pairs.map(([, other]) => other.perSecond));
  const p99 = middle(pairs.map(([one]) => one.p99Ms));
  console.log(
    `${name.padEnd(28)} ratio ${middle(ratios).toFixed(2)} (${ratios[0].toFixed(2)} to ${ratios.at(-1).toFixed(2)})` +
      `   service ${Math.round(ours)}/s, p99 ${p99.toFixed(0)} ms   baseline ${Math.round(theirs)}/s`,
  );
}
