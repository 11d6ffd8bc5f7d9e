import { parse } from 'csv-parse/sync';
import { ComputingThread } from '../../src/platform/computing-thread';
import { aLot, aSeededBatch, aSource, minutesAgo } from '../support/lots';
import { aSeedLine } from '../support/seed-line';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

async function aWorld(): Promise<ClubWorld & { lots: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  return { ...club, lots: `${club.path}/lots`, sourceId };
}

/** A request as a browser makes it for a picture: bytes, read as text. */
async function svgAt(actor: ClubWorld['ada'], path: string): Promise<string> {
  const { body, headers } = await actor.get(path).expect(200);
  expect(headers['content-type']).toBe('image/svg+xml');
  return (body as Buffer).toString('utf8');
}

/** Resolves as soon as something is handed to a thread. */
function beginOfComputing(): Promise<void> {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const { run } = ComputingThread.prototype;
  return new Promise((resolve) => {
    jest.spyOn(ComputingThread.prototype, 'run').mockImplementationOnce(function (
      this: ComputingThread<unknown, unknown>,
      task: unknown,
    ) {
      resolve();
      return run.call(this, task);
    });
  });
}

test('a lineage is drawn: the batch’s lots, what went where, and a way to each', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const { honeyId, seedId, batchId } = await aSeededBatch(ada, club, sourceId, minutesAgo(9));
  const { body: batch } = await ada.get(`${club.path}/batches/${batchId}`);
  const creamedId = String(batch.creamed.lotId ?? batch.creamed.id);

  const svg = await svgAt(ada, `${lots}/${creamedId}/lineage.svg`);

  for (const id of [honeyId, seedId, creamedId]) {
    expect(svg).toContain(`href="/api/v1/clubs/${club.clubId}/lots/${id}"`);
  }
  // By hand: 2 kg of seed in 22 kg, shown on the seed's card and on its line.
  expect(svg.match(/>9\.09 %[ <]/g)).toHaveLength(2);
  expect(svg).toContain('role="graphics-document"');
  const down = await svgAt(ada, `${lots}/${seedId}/lineage.svg`);
  expect(down).toContain('no other lot is in it; it is in 1 other');
  // A descendant's other inputs count, though they are not drawn.
  expect(down).toMatch(/>9\.09 % is the lot</);
  expect(down).not.toContain(honeyId);
});

test('what members call their lots runs nowhere', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const id = await aLot(ada, club, sourceId);
  await ada.change(`${lots}/${id}`, { name: '<script>alert(1)</script>\u0001"' });
  const svg = await svgAt(ada, `${lots}/${id}/lineage.svg`);
  expect(svg).not.toContain('<script');
  expect(svg).toContain('&lt;script&gt;');
  const { headers } = await ada.get(`${lots}/${id}/lineage.svg`);
  expect(headers['content-security-policy']).toMatch(/script-src 'self'/);
  expect(headers['x-content-type-options']).toBe('nosniff');
});

test('the table tells the same as the ancestors and descendants do', async () => {
  const { ada, lots, sourceId, clubId } = await aWorld();
  const { firstSeedId } = await aSeedLine(service, clubId, ada.memberId, sourceId, 3);

  const { text, headers } = await ada.get(`${lots}/${firstSeedId}/lineage.csv`).expect(200);
  const { body } = await ada.get(`${lots}/${firstSeedId}/descendants`);

  expect(headers['content-disposition']).toBe('attachment; filename="lineage.csv"');
  const rows: Record<string, string>[] = parse(text, { columns: true });
  expect(rows.map((row) => [row['relation'], row['lotId'], row['code'], row['share']])).toEqual(
    body.items.map((item: Record<string, unknown>) => [
      'descendant',
      item['lotId'],
      item['code'],
      String(item['share']),
    ]),
  );
  expect(rows).toHaveLength(6);
  const creamed = await ada.get(`${lots}/${rows[0]!['lotId']!}/lineage.csv`);
  const around: { relation: string }[] = parse(creamed.text, { columns: true });
  expect(around.map(({ relation }) => relation).sort()).toEqual([
    ...Array<string>(2).fill('ancestor'),
    ...Array<string>(5).fill('descendant'),
  ]);
});

test('300 lots are drawn, and others are answered meanwhile', async () => {
  const { ada, lots, sourceId, clubId } = await aWorld();
  const { lastSeedId } = await aSeedLine(service, clubId, ada.memberId, sourceId, 100);
  const answered: string[] = [];
  const begun = beginOfComputing();
  const drawing = svgAt(ada, `${lots}/${lastSeedId}/lineage.svg`).finally(() =>
    answered.push('drawing'),
  );

  await begun;
  await ada.get(`${lots}/${lastSeedId}`).expect(200);
  answered.push('lot');
  const svg = await drawing;

  // Were the drawing to hold this thread, the lot would be answered after it.
  expect(answered).toEqual(['lot', 'drawing']);
  expect(svg.match(/<a href/g)).toHaveLength(300);
  expect(svg).toContain('The 1 farthest are not drawn');
});

test('the lots near one tell what went from one into another, and which are on hold', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const { honeyId, seedId, batchId } = await aSeededBatch(ada, club, sourceId, minutesAgo(9));
  const { body: batch } = await ada.get(`${club.path}/batches/${batchId}`);
  const creamedId = String(batch.creamed.lotId ?? batch.creamed.id);
  await ada.post(`${lots}/${seedId}/holds`, { reason: 'Smells of vinegar' }).expect(201);

  const { body } = await ada.get(`${lots}/${creamedId}/lineage`).expect(200);

  const told = (body.lots as Record<string, unknown>[]).map((lot) => [
    lot['lotId'],
    lot['relation'],
    lot['nearestSteps'],
    lot['remainingMassKg'],
    lot['onHold'],
  ]);
  expect(told).toEqual([
    [creamedId, 'asked', 0, 22, true],
    [honeyId, 'ancestor', 1, 5, false],
    [seedId, 'ancestor', 1, 3, true],
  ]);
  // By hand: 2 kg of seed and 20 kg of honey make 22 kg.
  const lines = body.lines as { parentId: string; childId: string; massKg: number; part: number }[];
  expect(new Map(lines.map(({ parentId, massKg }) => [parentId, massKg]))).toEqual(
    new Map([
      [honeyId, 20],
      [seedId, 2],
    ]),
  );
  expect(lines.find(({ parentId }) => parentId === seedId)?.part).toBeCloseTo(1 / 11, 12);
  expect(body.leftOut).toBe(0);
});

test('of a long lineage the nearest lots are told, all joined, and how many are farther', async () => {
  const { ada, lots, sourceId, clubId } = await aWorld();
  const { firstSeedId, count } = await aSeedLine(service, clubId, ada.memberId, sourceId, 5);

  const { body } = await ada.get(`${lots}/${firstSeedId}/lineage?most=4`).expect(200);

  const steps = (body.lots as { nearestSteps: number }[]).map(({ nearestSteps }) => nearestSteps);
  expect(steps).toEqual([0, 1, 2, 3]);
  expect(body.lines).toHaveLength(3);
  // The honey of each batch is no descendant of the seed.
  expect(body.leftOut).toBe(count - 5 - 4);
  await ada.get(`${lots}/${firstSeedId}/lineage?most=0`).expect(422);
});
