import pg from 'pg';

// So many seed lines of so many batches, and one great line: each batch takes a pail of honey and some seed, and puts seed by for others.
const batchesOfLine = 600;
const batchesOfGreatLine = 33_000;
const rowsAtOnce = 20_000;
/** A club's codes are enough for some 300,000 lots. */
const lotsOfClub = 200_000;

/**
 * Clubs whose lots make up so many rows, written straight into the database with its triggers off: the first is the one given, and
 * of the others the same person is a member. Answers the lots to be traced:
 * typical ones with their lines' 1,800 relatives or less, and the first seed of the great line, which is in 66,000 others.
 */
export async function fillLineage(databaseUrl, club, lotCount) {
  const graph = new Graph();
  const greatBatches = Math.min(batchesOfGreatLine, Math.floor(lotCount / 10));
  const worst = graph.line(greatBatches, (batch) =>
    Math.floor(batch * (0.5 + 0.4 * graph.chance())),
  );
  const typical = [];
  while (graph.lots.length < lotCount) {
    const from = graph.lots.length;
    graph.line(batchesOfLine, (batch) => Math.max(0, batch - 1 - Math.floor(8 * graph.chance())));
    typical.push(from + Math.floor(graph.chance() * (graph.lots.length - from)));
  }
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const clubs = await clubsFor(client, club, graph);
  const codes = await someCodes(client, Math.max(...graph.lotsIn));
  await client.query('set session_replication_role = replica');
  for (let at = 0; at < graph.lots.length; at += rowsAtOnce) {
    await insertLots(client, clubs, codes, graph.lots.slice(at, at + rowsAtOnce), at);
  }
  for (let at = 0; at < graph.inputs.length; at += rowsAtOnce) {
    await insertInputs(client, clubs, graph, graph.inputs.slice(at, at + rowsAtOnce));
  }
  await client.query('vacuum analyze lot, lot_input');
  await client.end();
  return {
    lots: graph.lots.length,
    inputs: graph.inputs.length,
    typical: typical.map((index) => ({
      clubId: clubs[graph.lots[index].club].clubId,
      id: idOf(index),
    })),
    worst: { clubId: club.clubId, id: idOf(worst) },
  };
}

/** The club given, and as many more as the lots need. */
async function clubsFor(client, { clubId, memberId }, { lotsIn }) {
  const clubs = [{ clubId, memberId }];
  while (clubs.length < lotsIn.length) {
    const { rows } = await client.query(
      `with made as (insert into club (name, time_zone) values ('Bench', 'UTC') returning id)
       insert into member (club_id, person_id, role)
       select made.id, m.person_id, 'steward' from made, member m where m.id = $1
       returning club_id as "clubId", id as "memberId"`,
      [memberId],
    );
    clubs.push(rows[0]);
  }
  return clubs;
}

/** So many codes, none of which a lot has yet. */
async function someCodes(client, count) {
  const { rows } = await client.query(
    `select code from generate_series(0, 999999) n,
       lateral (select translate(lpad(n::text, 6, '0'), '0123456789', '234678KMRY') as body) b,
       lateral (select body || lot_code_check_character(body) as code) c
     where code ~ '^[234678KMRY]{7}$' and not exists (select from lot where lot.code = c.code) limit $1`,
    [count],
  );
  return rows.map(({ code }) => code);
}

class Graph {
  lots = [];
  inputs = [];
  /** How many lots each club has. */
  lotsIn = [];
  #club = 0;
  #state = 20_261_128;

  /** Each above 0 and below 1, always the same sequence (Park and Miller, 1988). */
  chance() {
    this.#state = (this.#state * 48_271) % 2_147_483_647;
    return this.#state / 2_147_483_647;
  }

  /** Answers the line's first seed. `seedOf` names the batch, 0 for none, whose seed a batch takes; every fifth takes of a second one. */
  line(batches, seedOf) {
    this.#club = Math.floor(this.lots.length / lotsOfClub);
    const seeds = [this.#lot('seed', 1_000_000, [])];
    for (let batch = 1; batch <= batches; batch++) {
      const honey = this.#lot('honey', 20_000, []);
      const used = new Set([seedOf(batch), ...(batch % 5 === 0 ? [seedOf(batch)] : [])]);
      const inputs = [
        [honey, 19_000 + (batch % 1000)],
        ...[...used].map((one) => [seeds[one], 100 + (batch % 13)]),
      ];
      const creamed = this.#lot('creamed', null, inputs);
      seeds.push(this.#lot('seed', null, [[creamed, 2_500]]));
    }
    return seeds[0];
  }

  #lot(kind, massG, inputs) {
    const child = this.lots.length;
    const inputMassG = inputs.reduce((sum, [, one]) => sum + one, 0);
    const depth = inputs.reduce((most, [parent]) => Math.max(most, this.lots[parent].depth + 1), 0);
    const club = this.#club;
    this.lotsIn[club] = (this.lotsIn[club] ?? 0) + 1;
    const place = this.lotsIn[club] - 1;
    this.lots.push({
      club,
      place,
      kind,
      massG: massG ?? inputMassG,
      inputMassG,
      usedMassG: 0,
      depth,
    });
    for (const [parent, one] of inputs) {
      this.lots[parent].usedMassG += one;
      this.inputs.push({ child, parent, massG: one });
    }
    return child;
  }
}

function idOf(index) {
  return `00000000-0000-7000-8000-${index.toString(16).padStart(12, '0')}`;
}

async function insertLots(client, clubs, codes, lots, from) {
  await client.query(
    `insert into lot (club_id, id, code, kind, name, holder_id, initial_mass_g, remaining_mass_g, used_mass_g, input_mass_g, depth)
     select club, id, code, kind, kind || ' ' || depth, holder, initial, initial - used, used, input, depth
     from unnest($1::uuid[], $2::uuid[], $3::text[], $4::lot_kind[], $5::uuid[], $6::int[], $7::int[], $8::int[], $9::int[])
       as l (club, id, code, kind, holder, initial, used, input, depth)`,
    [
      lots.map(({ club }) => clubs[club].clubId),
      lots.map((_, index) => idOf(from + index)),
      lots.map(({ place }) => codes[place]),
      lots.map(({ kind }) => kind),
      lots.map(({ club }) => clubs[club].memberId),
      lots.map(({ massG }) => massG),
      lots.map(({ usedMassG }) => usedMassG),
      lots.map(({ inputMassG }) => inputMassG),
      lots.map(({ depth }) => depth),
    ],
  );
}

async function insertInputs(client, clubs, { lots }, inputs) {
  await client.query(
    `insert into lot_input (club_id, child_id, parent_id, mass_g, child_input_mass_g, child_depth, parent_depth, at, recorded_by_id)
     select club, child, parent, mass_g, input, child_depth, parent_depth, '2031-01-01', recorder
     from unnest($1::uuid[], $2::uuid[], $3::uuid[], $4::uuid[], $5::int[], $6::int[], $7::int[], $8::int[])
       as i (club, recorder, child, parent, mass_g, input, child_depth, parent_depth)`,
    [
      inputs.map(({ child }) => clubs[lots[child].club].clubId),
      inputs.map(({ child }) => clubs[lots[child].club].memberId),
      inputs.map(({ child }) => idOf(child)),
      inputs.map(({ parent }) => idOf(parent)),
      inputs.map(({ massG }) => massG),
      inputs.map(({ child }) => lots[child].inputMassG),
      inputs.map(({ child }) => lots[child].depth),
      inputs.map(({ parent }) => lots[parent].depth),
    ],
  );
}
