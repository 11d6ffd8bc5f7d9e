import { randomUUID } from 'node:crypto';
import { checksumOf } from '../support/checksum';
import { aPlannedBatch, aSource, daysAgo, minutesAgo } from '../support/lots';
import { aCabinet, ahead } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
let probe: string;
let probeId: string;

beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club);
  probeId = await aProbe();
  probe = `${club.path}/probes/${probeId}`;
});

async function aProbe(wishes: object = { stationId, placedAt: daysAgo(400) }): Promise<string> {
  const name = `Probe ${randomUUID().slice(0, 8)}`;
  const { body } = await club.ada.post(`${club.path}/probes`, { name, ...wishes }).expect(201);
  return String(body.id);
}

type Pair = [at: string, temperatureC: number];

function send(pairs: Pair[], to = probe) {
  const readings = pairs.map(([at, temperatureC]) => ({ at, temperatureC }));
  return club.ada.post(`${to}/readings`, { readings });
}

function sendFile(text: string, type = 'text/csv') {
  return club.ada.send('post', `${probe}/readings`).type(type).send(text);
}

/** A time of that day. */
function at(time: string): string {
  return `2026-03-02T${time}:00.000Z`;
}

const morning: Pair[] = [
  [at('08:00'), 14],
  [at('08:20'), 14.6],
  [at('08:40'), 15.1],
  [at('09:10'), 13.9],
];

async function onRecord(query = ''): Promise<Pair[]> {
  const { body } = await club.ben.get(`${probe}/readings${query}`).expect(200);
  return (body.items as { at: string; temperatureC: number }[]).map((item) => [
    item.at,
    item.temperatureC,
  ]);
}

describe('readings', () => {
  test('are recorded in any order, and told in the order of time', async () => {
    const { body } = await send([...morning].reverse()).expect(200);
    expect(body).toEqual({ stored: 4, alreadyKnown: 0, firstAt: at('08:00'), lastAt: at('09:10') });
    expect(await onRecord()).toEqual(morning);
    const { body: shown } = await club.ada.get(probe);
    expect(shown).toMatchObject({
      readings: 4,
      lastReading: { at: at('09:10'), temperatureC: 13.9 },
    });
  });

  test('sent again are known; new ones among them are added', async () => {
    await send(morning.slice(0, 3)).expect(200);
    const before = await checksumOf(service);
    const again = await send(morning.slice(0, 3)).expect(200);
    expect(again.body).toMatchObject({ stored: 0, alreadyKnown: 3 });
    expect(await checksumOf(service)).toEqual(before);

    const more = await send(morning).expect(200);
    expect(more.body).toMatchObject({ stored: 1, alreadyKnown: 3 });
  });

  test('sent twice in one go count once; the same moment in another zone is the same', async () => {
    const { body } = await send([
      [at('08:00'), 14],
      ['2026-03-02T09:00:00+01:00', 14],
      [at('08:00'), 14.04],
    ]).expect(200);
    expect(body).toMatchObject({ stored: 1, alreadyKnown: 2 });
  });

  test('that contradict each other are refused, and the row is named', async () => {
    const before = await checksumOf(service);
    const { status, body } = await send([
      [at('08:00'), 14],
      [at('08:00'), 15],
    ]);
    expect([status, body.errors[0].pointer]).toEqual([422, '#/readings/1/temperatureC']);
    expect(body.detail).toContain('14 °C');
    expect(await checksumOf(service)).toEqual(before);
  });

  test('that contradict what is on record are refused, each row is named, and nothing is stored', async () => {
    await send(morning).expect(200);
    const before = await checksumOf(service);
    const { status, body } = await send([
      [at('10:00'), 14],
      [at('08:20'), 4.6],
      [at('08:40'), 15.1],
      [at('08:00'), -14],
    ]);
    expect([status, body.type]).toEqual([409, '/problems/reading-differs']);
    expect(body.detail).toMatch(/^2 readings differ/);
    expect(body.errors).toEqual([
      {
        pointer: '#/readings/1/temperatureC',
        detail: `For ${at('08:20')}, 14.6 °C is on record.`,
      },
      { pointer: '#/readings/3/temperatureC', detail: `For ${at('08:00')}, 14 °C is on record.` },
    ]);
    expect(await checksumOf(service)).toEqual(before);
  });

  test('from a clock that is days ahead are refused; one that is a little fast is forgiven', async () => {
    const before = await checksumOf(service);
    const { status, body } = await send([morning[0]!, [ahead(1).toISOString(), 14]]);
    expect([status, body.errors[0].pointer]).toEqual([422, '#/readings/1/at']);
    expect(await checksumOf(service)).toEqual(before);
    await send([[minutesAgo(-3), 14]]).expect(200);
  });

  test('are kept to the tenth of a degree, whatever the logger’s own steps are', async () => {
    await send([
      [at('08:00'), 21.4375],
      [at('08:10'), 38.88888888888889],
      [at('08:20'), -3.25],
    ]).expect(200);
    expect((await onRecord()).map(([, temperatureC]) => temperatureC)).toEqual([21.4, 38.9, -3.2]);
  });

  test.each([
    ['no list', { readings: 'x' }, '#/readings'],
    ['an empty list', { readings: [] }, '#/readings'],
    ['a time without its offset', { readings: [{ at: '2026-03-02T08:00', temperatureC: 1 }] }, '#/readings/0/at'],
    ['no probe’s temperature', { readings: [{ at: at('08:00'), temperatureC: 151 }] }, '#/readings/0/temperatureC'],
    ['an unknown field', { readings: [{ at: at('08:00'), temperatureC: 1, humidity: 3 }] }, '#/readings/0/humidity'],
    ['a row without a time', { readings: [{ temperatureC: 1 }] }, '#/readings/0'],
  ])('with %s are refused by pointer', async (_, body, pointer) => {
    const answer = await club.ada.post(`${probe}/readings`, body);
    expect([answer.status, answer.body.errors[0].pointer]).toEqual([422, pointer]);
  }); // prettier-ignore

  test('of a probe of another club are of no probe at all', async () => {
    const other = await aClub(service);
    const readings = [{ at: at('08:00'), temperatureC: 14 }];
    for (const id of [probeId, randomUUID()]) {
      const path = `${other.path}/probes/${id}/readings`;
      await other.ada.post(path, { readings }).expect(404);
      await other.ada.get(path).expect(404);
      await other.ada.get(`${path}.csv`).expect(404);
    }
  });

  test('sent by many at once are each stored once', async () => {
    const answers = await Promise.all(Array.from({ length: 8 }, () => send(morning)));
    const stored = answers.map(({ body }) => Number(body.stored));
    expect(stored.reduce((sum, one) => sum + one, 0)).toBe(4);
    expect(await onRecord()).toEqual(morning);
  });

  test('ten thousand and more: that many are taken at once, and one more is not', async () => {
    const many = (count: number): Pair[] =>
      Array.from({ length: count }, (_, minute) => [
        new Date(Date.UTC(2026, 0, 1) + minute * 60_000).toISOString(),
        (minute % 300) / 10,
      ]);
    const { body } = await send(many(10_000)).expect(200);
    expect(body).toMatchObject({ stored: 10_000, alreadyKnown: 0 });
    const { body: refused } = await send(many(10_001)).expect(422);
    expect(refused.errors[0]).toMatchObject({ pointer: '#/readings' });
  });

  test('all ten thousand of them wrong are refused with the first hundred named', async () => {
    const rows = Array.from({ length: 10_000 }, () => 'noon,cold').join('\n');
    const { body } = await sendFile(`at,temperatureC\n${rows}`).expect(422);
    expect(body.errors).toHaveLength(100);
    expect(body.errors[99].pointer).toMatch(/^#\/readings\/\d+\/(at|temperatureC)$/);
  });

  test('are in the history once for each time that something was stored', async () => {
    await send(morning);
    await send(morning);
    const { body } = await club.steward.get(`${club.path}/audit?subjectId=${probeId}`);
    const actions = (body.items as { action: string }[]).map(({ action }) => action);
    expect(actions).toEqual(['readings.recorded', 'probe.put-in']);
  });
});

describe('a file of readings', () => {
  const file = `at,temperatureC\n${morning.map((pair) => pair.join(',')).join('\n')}\n`;

  test('is taken as the same readings in JSON are', async () => {
    const { body } = await sendFile(file).expect(200);
    expect(body).toEqual({ stored: 4, alreadyKnown: 0, firstAt: at('08:00'), lastAt: at('09:10') });
    const json = await send(morning).expect(200);
    expect(json.body).toMatchObject({ stored: 0, alreadyKnown: 4 });
  });

  test.each([
    ['with CRLF and a charset', file.replaceAll('\n', '\r\n'), 'text/csv; charset=utf-8'],
    ['with a byte order mark and quotes', `\ufeff"at","temperatureC"\n"${at('08:00')}","14"`, undefined],
    ['with the columns the other way round', `temperatureC,at\n14.0,${at('08:00')}`, undefined],
    ['with semicolons', `at;temperatureC\n${at('08:00')};14.0`, undefined],
    ['with semicolons and decimal commas', `at;temperatureC\n${at('08:00')};14,0\n`, undefined],
    ['with blanks and empty lines', `at, temperatureC\n\n${at('08:00')}, +14 \n\n`, undefined],
  ])('is taken %s', async (_, text, type) => {
    await sendFile(text, type).expect(200);
    expect((await onRecord())[0]).toEqual([at('08:00'), 14]);
  }); // prettier-ignore

  test.each([
    ['another first line', 'time,celsius\n', 422, '#', 'at,temperatureC'],
    ['no first line', `${at('08:00')},14\n`, 422, '#', 'at,temperatureC'],
    ['a column too many', `at,temperatureC,colour\n${at('08:00')},14,x`, 422, '#', 'at,temperatureC'],
    ['nothing in it', '', 422, '#', 'at,temperatureC'],
    ['a first line alone', 'at,temperatureC\n', 422, '#/readings', 'at least 1'],
    ['a row that is too short', `at,temperatureC\n${at('08:00')},14\n${at('08:10')}`, 422, '#/readings/1', 'Line 3 '],
    ['a decimal comma among commas', `at,temperatureC\n${at('08:00')},14,5`, 422, '#/readings/0', 'Line 2 '],
    ['no time', 'at,temperatureC\n\n\nnoon,14', 422, '#/readings/0/at', 'Line 4: '],
    ['no temperature', `at,temperatureC\n${at('08:00')},`, 422, '#/readings/0/temperatureC', 'Line 2: '],
    ['a temperature that is no plain number', `at,temperatureC\n${at('08:00')},1e1`, 422, '#/readings/0/temperatureC', 'Line 2: '],
  ])('with %s is refused, and the line is told', async (_, text, status, pointer, words) => {
    const before = await checksumOf(service);
    const { status: came, body } = await sendFile(text);
    expect([came, body.errors?.[0].pointer]).toEqual([status, pointer]);
    expect(body.detail).toContain(words);
    expect(body.errors[0].detail).toContain(words);
    expect(await checksumOf(service)).toEqual(before);
  }); // prettier-ignore

  test('with a quote that is not closed cannot be read', async () => {
    const { status, body } = await sendFile(`at,temperatureC\n"${at('08:00')},14`);
    expect([status, body.type]).toEqual([400, '/problems/malformed']);
    expect(body.detail).toContain('RFC 4180');
  });

  test('that contradicts what is on record is refused, and the line is told', async () => {
    await send(morning).expect(200);
    const { body } = await sendFile(`at,temperatureC\n${at('11:00')},3\n${at('08:00')},3`).expect(
      409,
    );
    expect(body.errors).toEqual([
      {
        pointer: '#/readings/1/temperatureC',
        detail: `Line 3: For ${at('08:00')}, 14 °C is on record.`,
      },
    ]);
  });

  test('is no body for any other route', async () => {
    const { status, body } = await club.ada
      .send('post', `${club.path}/probes`)
      .type('text/csv')
      .send(file);
    expect([status, body.type]).toEqual([415, '/problems/wrong-media-type']);
  });

  test('of another kind is refused, and both kinds that would do are told', async () => {
    const { body } = await sendFile(file, 'text/plain').expect(415);
    expect(body.detail).toBe('Send application/json or text/csv.');
  });

  test('comes back as it can be sent', async () => {
    await send([...morning, [at('12:00'), -5.2]]).expect(200);
    const { text, headers } = await club.ben.get(`${probe}/readings.csv`).expect(200);
    expect(headers['content-type']).toBe('text/csv; charset=utf-8; header=present');
    expect(headers['content-disposition']).toBe('attachment; filename="readings.csv"');
    const rows = [...morning, [at('12:00'), -5.2]].map((pair) => `${pair.join(',')}\r\n`);
    expect(text).toBe(`at,temperatureC\r\n${rows.join('')}`);

    const again = await sendFile(text).expect(200);
    expect(again.body).toMatchObject({ stored: 0, alreadyKnown: 5 });
    const part = await club.ben.get(
      `${probe}/readings.csv?from=${at('08:40')}&until=${at('12:00')}`,
    );
    expect(part.text.trim().split('\r\n')).toHaveLength(3);
    await club.ben
      .get(`${probe}/readings.csv?from=${at('08:40')}&until=${at('08:40')}`)
      .expect(422);
  });

  test('of a probe that read nothing has its first line alone', async () => {
    const { text } = await club.ben.get(`${probe}/readings.csv`).expect(200);
    expect(text).toBe('at,temperatureC\r\n');
  });
});

describe('the list of readings', () => {
  test('goes page by page, from a time until another', async () => {
    await send(morning);
    const first = await club.ben.get(`${probe}/readings?limit=3`).expect(200);
    expect(first.body.items).toHaveLength(3);
    const next = await club.ben.get(`${probe}/readings?limit=3&cursor=${first.body.nextCursor}`);
    expect(next.body.items).toEqual([
      { probeId, at: at('09:10'), temperatureC: 13.9, minC: 13.9, maxC: 13.9, readings: 1 },
    ]);
    expect(await onRecord(`?from=${at('08:20')}&until=${at('09:10')}`)).toEqual(
      morning.slice(1, 3),
    );
    const { body } = await club.ben.get(
      `${probe}/readings?from=${at('09:00')}&until=${at('08:00')}`,
    );
    expect([body.status, body.errors[0].parameter]).toEqual([422, 'until']);
    const other = await club.ben.get(
      `${probe}/readings?limit=3&everyMinutes=5&cursor=${first.body.nextCursor}`,
    );
    expect([other.status, other.body.type]).toEqual([400, '/problems/bad-cursor']);
  });

  test('gathers the readings of each hour into their mean, coldest and warmest', async () => {
    await send(morning);
    const path = `${probe}/readings?everyMinutes=60`;
    const expected = [
      // (14 + 14.6 + 15.1) / 3
      { probeId, at: at('08:00'), temperatureC: 14.57, minC: 14, maxC: 15.1, readings: 3 },
      { probeId, at: at('09:00'), temperatureC: 13.9, minC: 13.9, maxC: 13.9, readings: 1 },
    ];
    const { body } = await club.ben.get(path).expect(200);
    expect(body.items).toEqual(expected);

    const first = await club.ben.get(`${path}&limit=1`);
    const next = await club.ben.get(`${path}&limit=1&cursor=${first.body.nextCursor}`);
    expect([...first.body.items, ...next.body.items]).toEqual(expected);
    expect(next.body.nextCursor).toBeNull();
  });

  test('shows a month on one page', async () => {
    const hourly: Pair[] = Array.from({ length: 31 * 24 }, (_, hour) => [
      new Date(Date.UTC(2026, 0, 1) + hour * 3_600_000).toISOString(),
      12 + (hour % 4),
    ]);
    await send(hourly).expect(200);
    const { body } = await club.ada.get(`${probe}/readings?everyMinutes=240&limit=200`).expect(200);
    expect([body.items.length, body.nextCursor]).toEqual([186, null]);
    expect(body.items[7]).toMatchObject({ temperatureC: 13.5, minC: 12, maxC: 15, readings: 4 });
  });
});

describe('the readings of a station or batch', () => {
  test('are those of every probe while it was there, and of no other time', async () => {
    const source = await aSource(service, club.clubId);
    const { batchId } = await aPlannedBatch(club.ada, club, source);
    const mover = `${club.path}/probes/${await aProbe({ stationId, placedAt: at('08:10') })}`;
    await club.ada.change(mover, { batchId, movedAt: at('08:30') });
    await club.ada.change(mover, { batchId: null, movedAt: at('09:10') });
    await send(morning, mover).expect(200);
    await send([[at('08:20'), 13]]).expect(200);

    const station = await club.ben.get(`${club.path}/stations/${stationId}/readings`).expect(200);
    const batch = await club.ben.get(`${club.path}/batches/${batchId}/readings`).expect(200);
    const told = (answer: typeof station) =>
      (answer.body.items as { at: string; temperatureC: number }[])
        .map((item): Pair => [item.at, item.temperatureC])
        .sort(([, one], [, other]) => one - other);
    // Of the morning, 08:00 was before it came, and from 09:10 on it was nowhere.
    expect(told(station)).toEqual([
      [at('08:20'), 13],
      [at('08:20'), 14.6],
    ]);
    expect(told(batch)).toEqual([[at('08:40'), 15.1]]);

    const first = await club.ben.get(`${club.path}/stations/${stationId}/readings?limit=1`);
    const next = await club.ben.get(
      `${club.path}/stations/${stationId}/readings?limit=1&cursor=${first.body.nextCursor}`,
    );
    expect([...first.body.items, ...next.body.items]).toEqual(station.body.items);
    const gathered = await club.ben.get(
      `${club.path}/stations/${stationId}/readings?everyMinutes=60`,
    );
    expect(gathered.body.items).toHaveLength(2);
  });

  test.each(['stations', 'batches'])('of %s that are not there are not there', async (word) => {
    await club.ada.get(`${club.path}/${word}/${randomUUID()}/readings`).expect(404);
  });

  test('are none where no probe was', async () => {
    const other = await aBench();
    const { body } = await club.ada.get(`${club.path}/stations/${other}/readings`).expect(200);
    expect(body).toEqual({ items: [], nextCursor: null });
  });
});

async function aBench(): Promise<string> {
  const { body } = await club.steward
    .post(`${club.path}/stations`, {
      name: 'Bench',
      placeLoadKg: 30,
      changeoverMinutes: 0,
      duties: [{ duty: 'bench', minC: 15, maxC: 25 }],
      places: 1,
    })
    .expect(201);
  return String(body.id);
}
