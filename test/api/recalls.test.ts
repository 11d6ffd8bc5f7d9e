import { parse } from 'csv-parse/sync';
import { writtenLotCode } from '../../src/core/marks/lot-code';
import { aLot, aPlannedBatch, minutesAgo } from '../support/lots';
import { aCabinet, ahead, aWish } from '../support/room';
import { useService } from '../support/service';
import { aSuspectLine } from '../support/suspect-line';

const service = useService();

/**
 * 5 kg of seed, 2 kg of it in a batch of 22 kg: a share of 1/11. Of the batch 5 kg are in pots, 3 kg were put by as seed; of that Ada
 * lent 1 kg to Ben, who withdrew a tenth of it, and 0.5 kg of the suspect seed itself was spilt.
 */
async function aRecall() {
  const line = await aSuspectLine(service);
  const { ada, ben, path } = line.club;
  const lent = await ada
    .post(`${path}/loans`, {
      lotId: line.nextSeedId,
      borrowerId: ben.memberId,
      massKg: 1,
      at: minutesAgo(100),
    })
    .expect(201);
  const lentId = String(lent.body.toLot.id);
  const withdraw = { kind: 'used', massKg: 0.1, at: minutesAgo(50), note: '=Given to <Gert>' };
  await ben.post(`${path}/lots/${lentId}/withdrawals`, withdraw).expect(201);
  await ada
    .post(`${path}/lots/${line.seedId}/withdrawals`, {
      kind: 'lost',
      massKg: 0.5,
      at: minutesAgo(400),
    })
    .expect(201);
  return { ...line, lentId, recall: `${path}/lots/${line.seedId}/recall` };
}

test('a recall finds every lot, whose it is, and where all of the suspect lot is, to the gram', async () => {
  const { club, seedId, creamedId, nextSeedId, lentId, recall } = await aRecall();
  const { ada, ben } = club;
  const { body: held } = await ben
    .post(`${club.path}/lots/${creamedId}/holds`, { reason: 'Smells' })
    .expect(201);

  const { body } = await ada.get(recall).expect(200);

  // By hand: 2.5 kg are still seed and 0.5 kg spilt. Of 22 kg, 14 kg are left, 5 potted; an eleventh of them, and of 2, 0.9 and 0.1 kg:
  // 1272.73, 454.55, 181.82, 81.82 and 9.09 g, of which the three largest remainders are rounded up.
  expect(body).toMatchObject({
    lotId: seedId,
    initialMassKg: 5,
    totals: {
      lots: 4,
      holders: 2,
      foundKg: 5,
      inLotsKg: 4.037,
      pottedKg: 0.454,
      withdrawnKg: 0.009,
      lostKg: 0.5,
    },
    notListed: { lots: 0, foundKg: 0 },
  });
  const eleventh = { shareFraction: '1/11' };
  expect(body.items).toMatchObject([
    { lotId: seedId, shareFraction: '1/1', suspectMassKg: 5, inLotsKg: 2.5, lostKg: 0.5 },
    {
      lotId: creamedId,
      ...eleventh,
      suspectMassKg: 2,
      inLotsKg: 1.273,
      pottedKg: 0.454,
      remainingMassKg: 14,
      pots: [{ netMassKg: 0.5, count: 10 }],
      withdrawals: [{ kind: 'potted', massKg: 5 }],
      onHold: [held.id],
    },
    {
      lotId: nextSeedId,
      ...eleventh,
      holder: { id: ada.memberId },
      suspectMassKg: 0.273,
      inLotsKg: 0.182,
      lentTo: [{ lotId: lentId, massKg: 1 }],
      onHold: [held.id],
    },
    {
      lotId: lentId,
      ...eleventh,
      holder: { id: ben.memberId },
      inLotsKg: 0.082,
      withdrawnKg: 0.009,
      withdrawals: [{ kind: 'used', massKg: 0.1, note: '=Given to <Gert>' }],
    },
  ]);
  const grams = (name: string) =>
    body.items.reduce(
      (sum: number, item: Record<string, number>) => sum + Math.round(item[name]! * 1000),
      0,
    ) as number;
  expect(['inLotsKg', 'pottedKg', 'withdrawnKg', 'lostKg', 'foundKg'].map(grams)).toEqual([
    4037, 454, 9, 500, 5000,
  ]);
});

test('where a batch stands now is told by its booking', async () => {
  const { club, creamedId, recall, ...line } = await aRecall();
  const batchId = line.batchPath.split('/').at(-1);
  const stationId = await aCabinet(club);
  const now = { startsAt: ahead(-1), endsAt: ahead(2) };
  await club.steward
    .post(`${club.path}/bookings`, {
      ...aWish(stationId, now),
      memberId: club.ada.memberId,
      batchId,
    })
    .expect(201);

  const { body } = await club.ada.get(recall).expect(200);

  const creamed = body.items.find(({ lotId }: { lotId: string }) => lotId === creamedId);
  expect(creamed.places).toEqual([
    { station: expect.any(String), places: '1', until: now.endsAt.toISOString() },
  ]);
});

test.each([
  ['atLeastPercent=10', 1, 3],
  ['atLeastPercent=9.090909', 4, 0],
  ['atLeastPercent=9.090910', 1, 3],
  ['atLeastG=91', 3, 1],
  ['atLeastG=90&atLeastPercent=5', 4, 0],
])('with %s it lists %i lots and says what is in the others', async (query, listed, others) => {
  const { club, recall } = await aRecall();

  const { body } = await club.ada.get(`${recall}?${query}`).expect(200);

  expect([body.items.length, body.notListed.lots]).toEqual([listed, others]);
  const sum = (items: { foundKg: number }[]) =>
    items.reduce((total, { foundKg }) => total + Math.round(foundKg * 1000), 0);
  expect(sum(body.items) + sum([body.notListed])).toBe(5000);
  expect(body.totals).toMatchObject({ lots: 4, foundKg: 5 });
});

test('as a table it has a line for each lot and opens safely in a spreadsheet', async () => {
  const { club, lentId, recall } = await aRecall();

  const { text, headers } = await club.ada.get(`${recall}.csv`).expect(200);

  expect(headers['content-disposition']).toBe('attachment; filename="recall.csv"');
  const lines: Record<string, string>[] = parse(text, { columns: true });
  expect(lines).toHaveLength(4);
  const { body: lent } = await club.ada.get(`${club.path}/lots/${lentId}`);
  expect(lines.at(-1)).toMatchObject({
    lotId: lentId,
    code: writtenLotCode(lent.code as string),
    inLotsKg: '0.082',
    withdrawals: expect.stringContaining('0.1 kg used'),
    onHold: 'no',
  });
  expect(lines.reduce((sum, { inLotsKg }) => sum + Math.round(Number(inLotsKg) * 1000), 0)).toBe(
    4037,
  );
});

test('as a page it stands alone, runs nothing, and shows what members wrote as they wrote it', async () => {
  const { club, recall, seedId } = await aRecall();
  const name = 'Seed <script>alert(1)</script> & "more"';
  await club.ada.change(`${club.path}/lots/${seedId}`, { name });

  const { text, headers } = await club.ada.get(`${recall}.html`).expect(200);

  expect(headers['content-type']).toBe('text/html; charset=utf-8');
  expect(headers['content-security-policy']).toMatch(/^default-src 'none'; style-src/);
  expect(text).toContain('Seed &lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;more&quot;');
  expect(text).toContain('=Given to &lt;Gert&gt;');
  expect(text).not.toMatch(/<script|<link|<img|src=|href=|javascript:/);
  expect(text).toContain('<tr class="sum"><th scope="row">together</th><td>5 kg</td></tr>');
  expect(text.match(/<section>/g)).toHaveLength(2);
  expect(text).toMatch(/@media print/);
});

test('a drill measures and keeps what a recall would find, and tells nobody', async () => {
  const { club, recall, seedId } = await aRecall();
  const { ada, ben, path } = club;

  const { body } = await ben.post(`${recall}-drills`).expect(201);

  expect(body).toMatchObject({
    lot: { id: seedId },
    runBy: { id: ben.memberId },
    lots: 3,
    holders: 2,
    soughtKg: 5,
    foundKg: 5,
    inLotsKg: 4.037,
    pottedKg: 0.454,
    withdrawnKg: 0.009,
    lostKg: 0.5,
    isComplete: true,
  });
  expect(body.durationMs).toBeGreaterThan(0);
  expect((await ada.get(`${path}/recall-drills`).expect(200)).body.items).toEqual([body]);
  const told = await service.prisma.notice.findMany({ where: { clubId: club.clubId } });
  expect(told.map(({ kind }) => kind)).toEqual(['loan.received']);
  const { body: seed } = await ada.get(`${path}/lots/${seedId}`).expect(200);
  expect(seed.onHold).toEqual([]);
});

test('a lot that went nowhere is all there is; one of another club is not found', async () => {
  const { club, sourceId } = await aRecall();
  const other = await aSuspectLine(service);
  const lotId = await aLot(club.ada, club, sourceId);
  await aPlannedBatch(club.ada, club, sourceId);

  const { body } = await club.ada.get(`${club.path}/lots/${lotId}/recall`).expect(200);

  expect(body.totals).toMatchObject({ lots: 1, holders: 1, foundKg: 25, inLotsKg: 25 });
  await club.ada.get(`${club.path}/lots/${other.seedId}/recall`).expect(404);
  await club.ada.post(`${club.path}/lots/${other.seedId}/recall-drills`).expect(404);
});
