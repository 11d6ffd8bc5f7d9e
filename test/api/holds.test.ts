import { aLot, aPlannedBatch, aSource, minutesAgo } from '../support/lots';
import { useService } from '../support/service';
import { aSuspectLine } from '../support/suspect-line';
import type { Actor, ClubWorld } from '../support/world';

const service = useService();

async function hold(actor: Actor, club: ClubWorld, lotId: string): Promise<string> {
  const { body } = await actor
    .post(`${club.path}/lots/${lotId}/holds`, {
      reason: 'Smells of vinegar',
      evidence: 'Two noses',
    })
    .expect(201);
  return body.id as string;
}

const withdrawal = (massKg = 0.1) => ({ kind: 'used', massKg, at: minutesAgo(1) });

test('any member stops a suspect lot and all made of it, and its holders are told', async () => {
  const { club, seedId, creamedId, nextSeedId } = await aSuspectLine(service);
  const { ada, ben, steward, path } = club;
  const loan = { lotId: nextSeedId, borrowerId: steward.memberId, massKg: 1, at: minutesAgo(200) };
  const { body: lent } = await ada.post(`${path}/loans`, loan).expect(201);

  const { body } = await ben
    .post(`${path}/lots/${seedId}/holds`, { reason: 'Smells of vinegar' })
    .expect(201);

  expect(body).toMatchObject({ isOpen: true, release: null, placedBy: { id: ben.memberId } });
  expect(body.reached.map(({ lotId }: { lotId: string }) => lotId)).toEqual([
    seedId,
    creamedId,
    nextSeedId,
    lent.toLot.id,
  ]);
  expect((await ada.get(`${path}/holds/${String(body.id)}`).expect(200)).body).toEqual(body);
  for (const lotId of [seedId, creamedId, nextSeedId, lent.toLot.id as string]) {
    const { body: lot } = await ada.get(`${path}/lots/${lotId}`).expect(200);
    expect(lot.onHold).toEqual([body.id]);
  }
  const told = await service.prisma.notice.findMany({
    where: { clubId: club.clubId, kind: 'hold.placed' },
  });
  expect(told.map(({ memberId, kind, details }) => ({ memberId, kind, details }))).toEqual(
    expect.arrayContaining([
      {
        memberId: ada.memberId,
        kind: 'hold.placed',
        details: expect.objectContaining({ lotId: seedId, lots: 3 }),
      },
      {
        memberId: steward.memberId,
        kind: 'hold.placed',
        details: expect.objectContaining({ lotId: seedId, lots: 1 }),
      },
    ]),
  );
  expect(told).toHaveLength(2);
  const { body: notices } = await ada.get(`${path}/notices`).expect(200);
  expect(notices.items[0]).toMatchObject({
    subject: expect.stringMatching(/^Stop: “seed .*” is on hold$/),
    text: expect.stringContaining('Smells of vinegar'),
  });
});

test('nothing on hold is used, lent, potted, put by or withdrawn, and the refusal says what would free it', async () => {
  const { club, sourceId, seedId, nextSeedId } = await aSuspectLine(service);
  const { ada, ben, steward, path } = club;
  const other = await aPlannedBatch(ada, club, sourceId);
  const running = await aPlannedBatch(ada, club, sourceId);
  const seed = [{ lotId: nextSeedId, massKg: 1 }];
  await ada.post(`${running.path}/steps`, { kind: 'seeded', at: minutesAgo(90), seed }).expect(201);
  const holdId = await hold(ben, club, seedId);

  const answers = [
    await ada.post(`${path}/lots/${nextSeedId}/withdrawals`, withdrawal()),
    await ada.post(`${path}/loans`, {
      lotId: nextSeedId,
      borrowerId: ben.memberId,
      massKg: 0.1,
      at: minutesAgo(1),
    }),
    await steward.post(`${other.path}/steps`, { kind: 'seeded', at: minutesAgo(1), seed }),
    await ada.post(`${running.path}/steps`, {
      kind: 'potted',
      at: minutesAgo(1),
      pots: [{ netMassKg: 0.5, count: 2 }],
    }),
  ];

  for (const { status, body } of answers) {
    expect([status, body.type]).toEqual([409, '/problems/on-hold']);
    expect(body.detail).toMatch(/is on hold: it was made of .*Smells of vinegar/);
    expect(body.holds).toEqual([expect.objectContaining({ holdId, heldLotId: seedId })]);
    expect(body.wouldFree).toEqual([
      { post: `/api/v1${path}/holds/${holdId}/release`, lotId: seedId },
      { post: `/api/v1${path}/holds/${holdId}/branch-releases`, lotId: body.holds[0].lotId },
    ]);
  }
  const direct = await ada.post(`${path}/lots/${seedId}/withdrawals`, withdrawal()).expect(409);
  expect(direct.body.wouldFree).toHaveLength(1);
});

test('what runs goes on: steps that move no mass, setting checks, renaming', async () => {
  const { club, seedId, creamedId, batchPath } = await aSuspectLine(service);
  const { ada } = club;
  await hold(club.ben, club, seedId);

  await ada.post(`${batchPath}/steps`, { kind: 'shelved', at: minutesAgo(230) }).expect(201);
  await ada
    .post(`${batchPath}/setting-checks`, { at: minutesAgo(20), state: 'thickening' })
    .expect(201);
  expect((await ada.change(`${club.path}/lots/${creamedId}`, { note: 'Looked at' })).status).toBe(
    200,
  );
  await aLot(ada, club, await aSource(service, club.clubId));
});

test('a steward or who placed it releases a hold, once, on evidence', async () => {
  const { club, seedId, nextSeedId } = await aSuspectLine(service);
  const { ada, ben, steward, path } = club;
  const holdId = await hold(ben, club, seedId);
  const release = { because: 'It was the bucket', evidence: 'Tasted by three' };

  const refused = await ada.post(`${path}/holds/${holdId}/release`, release).expect(403);
  expect(refused.body.type).toBe('/problems/not-yours');
  await ben.post(`${path}/holds/${holdId}/release`, { because: 'So' }).expect(422);
  const { body } = await ben.post(`${path}/holds/${holdId}/release`, release).expect(200);

  expect(body).toMatchObject({
    isOpen: false,
    reached: [],
    release: { by: { id: ben.memberId }, ...release },
  });
  await ada.post(`${path}/lots/${nextSeedId}/withdrawals`, withdrawal()).expect(201);
  const again = await steward.post(`${path}/holds/${holdId}/release`, release).expect(409);
  expect(again.body.type).toBe('/problems/hold-over');
  const told = await service.prisma.notice.findMany({
    where: { clubId: club.clubId, kind: 'hold.released' },
  });
  expect(told.map(({ memberId }) => memberId)).toEqual([ada.memberId]);
});

test('one branch is released on evidence; what another way still reaches stays on hold', async () => {
  const { club, sourceId, seedId, creamedId, nextSeedId } = await aSuspectLine(service);
  const { ada, ben, steward, path } = club;
  const lend = async (from: string, massKg: number) => {
    const loan = { lotId: from, borrowerId: ben.memberId, massKg, at: minutesAgo(100) };
    const { body } = await ada.post(`${path}/loans`, loan).expect(201);
    return String(body.toLot.id);
  };
  const pure = await lend(nextSeedId, 1);
  const straight = await lend(seedId, 1);
  const honeyId = await aLot(ben, club, sourceId);
  const { body: planned } = await ben
    .post(`${path}/batches`, { name: 'Both', honey: [{ lotId: honeyId, massKg: 5 }] })
    .expect(201);
  const seed = [
    { lotId: pure, massKg: 0.4 },
    { lotId: straight, massKg: 0.4 },
  ];
  const { body: step } = await ben
    .post(`${path}/batches/${String(planned.id)}/steps`, {
      kind: 'seeded',
      at: minutesAgo(50),
      seed,
    })
    .expect(201);
  const both = String(step.madeLotId);
  const holdId = await hold(ada, club, seedId);
  const branch = { because: 'Good', evidence: 'Tested' };
  const branches = `${path}/holds/${holdId}/branch-releases`;

  const { body } = await ada.post(branches, { lotId: creamedId, ...branch }).expect(200);

  const onHold = async (lotId: string) =>
    (await ada.get(`${path}/lots/${lotId}`).expect(200)).body.onHold as string[];
  expect(body.reached.map(({ lotId }: { lotId: string }) => lotId).sort()).toEqual(
    [seedId, straight, both].sort(),
  );
  expect(body.branchReleases).toMatchObject([{ lot: { id: creamedId }, ...branch }]);
  expect(await Promise.all([creamedId, nextSeedId, pure].map(onHold))).toEqual([[], [], []]);
  expect(await onHold(both)).toEqual([holdId]);
  await ada.post(`${path}/lots/${nextSeedId}/withdrawals`, withdrawal()).expect(201);
  await ben.post(`${path}/lots/${pure}/withdrawals`, withdrawal()).expect(201);
  await ben.post(`${path}/lots/${both}/withdrawals`, withdrawal()).expect(409);

  // Free already, the start itself, and not there at all.
  for (const lotId of [nextSeedId, seedId, honeyId]) {
    const { body: no } = await steward.post(branches, { lotId, ...branch }).expect(409);
    expect(no.type).toBe('/problems/lot-unsuitable');
  }
  await ben.post(branches, { lotId: straight, ...branch }).expect(403);
  await steward.post(branches, { lotId: straight, ...branch }).expect(200);
  expect(await onHold(both)).toEqual([]);
  const told = await service.prisma.notice.findMany({
    where: { clubId: club.clubId, kind: 'hold.released' },
  });
  expect(told.map(({ memberId }) => memberId).sort()).toEqual(
    [ada.memberId, ben.memberId, ben.memberId].sort(),
  );
});

test('two holds reach a lot each by itself; the list tells open ones from released ones', async () => {
  const { club, seedId, creamedId, nextSeedId } = await aSuspectLine(service);
  const { ada, path } = club;
  const first = await hold(ada, club, seedId);
  const second = await hold(ada, club, creamedId);

  const { body: lots } = await ada.get(`${path}/lots`).expect(200);
  const next = lots.items.find(({ id }: { id: string }) => id === nextSeedId);
  expect(next.onHold).toEqual([first, second]);
  await ada
    .post(`${path}/holds/${first}/release`, { because: 'Good', evidence: 'Tested' })
    .expect(200);
  await ada.post(`${path}/lots/${nextSeedId}/withdrawals`, withdrawal()).expect(409);
  await ada.post(`${path}/lots/${seedId}/withdrawals`, withdrawal()).expect(201);

  const idsOf = async (query: string) =>
    (await ada.get(`${path}/holds${query}`).expect(200)).body.items.map(
      ({ id }: { id: string }) => id,
    ) as string[];
  expect(await idsOf('')).toEqual([second, first]);
  expect(await idsOf('?open=true')).toEqual([second]);
  expect(await idsOf('?open=false')).toEqual([first]);
  await ada.get(`${path}/holds/${club.clubId}`).expect(404);
  await ada.post(`${path}/lots/${club.clubId}/holds`, { reason: 'x' }).expect(404);
});
