// Traces in a club of a million lots: typical lots through the API, and the worst one against its very statement in bare pg.
import { createRequire } from 'node:module';
import pg from 'pg';
import { fillLineage } from './fill-lineage.mjs';

const require = createRequire(import.meta.url);
const { downwards, upwards } = require('../../dist/src/lots/lineage-rows.js');
const lotCount = Number(process.env.BENCH_LOTS ?? 1_000_000);
const typicalLimitMs = 50;
const repeats = 5;
const movements = 200;

/** Prints what a trace takes. `start` starts a process of this folder with an environment and answers its address. */
export async function compareLineage(databaseUrl, club, start) {
  const filled = await fillLineage(databaseUrl, club, lotCount);
  console.log(`\nlineage of ${filled.lots} lots with ${filled.inputs} inputs`);
  const service = await start('service-process.mjs', { DATABASE_URL: databaseUrl });
  const pathOf = ({ clubId, id }) => `/api/v1/clubs/${clubId}/lots/${id}`;
  const worstTraces = ['descendants', 'ancestors', 'recall'].map((what) => ({
    what,
    path: `${pathOf(filled.worst)}/${what}`,
  }));
  const trace = timed(service.url, club.token);

  const times = [];
  for (const lot of filled.typical.slice(0, 20)) await trace(`${pathOf(lot)}/ancestors`);
  for (const lot of filled.typical) {
    for (const what of ['ancestors', 'descendants']) {
      const { ms, relatives } = await trace(`${pathOf(lot)}/${what}`);
      if (relatives > 2000) throw new Error(`${lot.id} has ${relatives} relatives`);
      times.push(ms);
    }
  }
  times.sort((a, b) => a - b);
  const at = (part) => times[Math.floor(times.length * part)].toFixed(1);
  console.log(
    `typical lot                  median ${at(0.5)} ms, p95 ${at(0.95)} ms (at most ${typicalLimitMs}), longest ${at(0.9999)} ms, ${times.length} traces`,
  );

  const statements = { descendants: downwards, ancestors: upwards };
  const bare = await start('bare-process.mjs', {
    DATABASE_URL: databaseUrl,
    STATEMENTS: JSON.stringify(
      worstTraces.slice(0, 1).map(({ what, path }) => {
        const { text, values } = statements[what](club.clubId, filled.worst.id);
        return { path, statements: [{ text, values }] };
      }),
    ),
  });
  const [worst, , recall] = worstTraces;
  const ours = [];
  const theirs = [];
  const direct = timed(bare.url, club.token);
  for (let round = 0; round <= repeats; round++) {
    const [one, other] = [await trace(worst.path), await direct(worst.path)];
    // The first round fills the caches.
    if (round > 0) {
      ours.push(one.ms);
      theirs.push(other.ms);
    }
    if (round === repeats) console.log(`worst lot                    in ${one.relatives} others`);
  }
  const middle = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
  console.log(
    `  descendants                ${middle(ours).toFixed(0)} ms; bare pg ${middle(theirs).toFixed(0)} ms; ratio ${(middle(ours) / middle(theirs)).toFixed(2)} (at most 2)`,
  );
  console.log(`  recall                     ${(await trace(recall.path)).ms.toFixed(0)} ms`);
  console.log(`  memory of the service      ${await service.memoryMb()} MB`);
  service.stop();
  bare.stop();
  await compareGuard(databaseUrl, club, filled.typical[0].id);
}

/** What the guard adds to a movement: with it, without it, and with an open hold elsewhere in the club. */
async function compareGuard(databaseUrl, { clubId, memberId }, heldId) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const { rows } = await client.query(
    `select id from lot where club_id = $1 and kind = 'seed' and remaining_mass_g > 1000 and depth > 20 limit 1`,
    [clubId],
  );
  const move = async () => {
    const began = performance.now();
    for (let count = 0; count < movements; count++) {
      await client.query({
        name: 'move',
        text: `insert into lot_movement (club_id, lot_id, kind, mass_g, at, recorded_by_id) values ($1, $2, 'lost', 1, '2032-01-01', $3)`,
        values: [clubId, rows[0].id, memberId],
      });
    }
    return (performance.now() - began) / movements;
  };
  const guard = (how) =>
    client.query(`alter table lot_movement ${how} trigger lot_movement_not_on_hold`);
  await client.query('begin');
  await move();
  await guard('disable');
  const without = await move();
  await guard('enable');
  const guarded = await move();
  await client.query(
    `insert into hold (club_id, lot_id, reason, placed_by_id) values ($1, $2, 'Bench', $3)`,
    [clubId, heldId, memberId],
  );
  const held = await move();
  await client.query('rollback');
  await client.end();
  console.log(
    `a movement                   ${without.toFixed(3)} ms without the guard of holds, ${guarded.toFixed(3)} ms with it, ${held.toFixed(3)} ms with a hold on another lot`,
  );
}

function timed(url, token) {
  return async (path) => {
    const began = performance.now();
    const answer = await fetch(`${url}${path}`, { headers: { authorization: `Bearer ${token}` } });
    const text = await answer.text();
    const ms = performance.now() - began;
    if (answer.status !== 200) throw new Error(`${path}: ${answer.status} ${text.slice(0, 300)}`);
    return { ms, relatives: JSON.parse(text).items.length };
  };
}
