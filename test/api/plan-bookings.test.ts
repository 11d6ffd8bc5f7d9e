import { randomUUID } from 'node:crypto';
import { lotsOutOfBalance, minutesAgo } from '../support/lots';
import { aPlan, aPlanRoom, dayAhead, type Plan, type PlanWorld } from '../support/plan-room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();

type Made = Record<
  'id' | 'stationId' | 'duty' | 'startsAt' | 'endsAt' | 'places' | 'planId' | 'memberId',
  unknown
>;

async function aWorld(): Promise<PlanWorld> {
  return aPlanRoom(service, await aClub(service));
}

const book = ({ ada, plans }: PlanWorld, planId: string, alternative = 0) =>
  ada.post(`${plans}/${planId}/booking`, { alternative });

/** How many things stand in the room and the records of the club. */
async function counts({ clubId }: PlanWorld) {
  const where = { clubId };
  return {
    bookings: await service.prisma.booking.count({ where }),
    batches: await service.prisma.batch.count({ where }),
    seed: await service.prisma.batchSeed.count({ where }),
  };
}

/** Somebody else takes the cool room at the time of the plan’s slot. */
async function takenByOthers(world: PlanWorld, plan: Plan, step = 'cool') {
  const slot = plan.alternatives[0]!.slots.find((one) => one.step === step)!;
  const { body } = await world.steward.get(`${world.path}/stations/${slot.stationId}`);
  const [{ duty, minC, maxC }] = body.duties;
  await world.steward
    .post(world.bookings, {
      stationId: slot.stationId,
      duty,
      minC,
      maxC,
      startsAt: slot.startsAt,
      endsAt: slot.endsAt,
      places: body.places,
    })
    .expect(201);
}

test('booking makes all of it: places of all stations, the batch with its honey, and its seed', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);

  const { body } = await book(world, plan.id).expect(200);

  expect(body).toMatchObject({ id: plan.id, state: 'booked', bookedAlternative: 0 });
  const { body: batch } = await world.ada.get(`${world.path}/batches/${body.batchId}`);
  expect(batch).toMatchObject({
    name: 'Autumn',
    stage: 'planned',
    member: { id: world.ada.memberId },
    honey: [{ lotId: world.honeyId, massKg: 25 }],
    seed: [{ lotId: world.seedId, massKg: 2.5 }],
  });
  const { body: seed } = await world.ada.get(`${world.path}/lots/${world.seedId}`);
  expect([seed.remainingMassKg, seed.reservedMassKg]).toEqual([5, 2.5]);
  const { body: made } = await world.ada.get(`${world.bookings}?batchId=${body.batchId}`);
  expect(
    made.items.map(({ stationId, duty, startsAt, endsAt, places, planId, memberId }: Made) => ({
      stationId,
      duty,
      startsAt,
      endsAt,
      places,
      planId,
      memberId,
    })),
  ).toEqual(
    plan.alternatives[0]!.slots.map(({ stationId, startsAt, endsAt, places, step }) => ({
      stationId,
      duty: step,
      startsAt,
      endsAt,
      places,
      planId: plan.id,
      memberId: world.ada.memberId,
    })),
  );
  expect(body.bookings.map(({ bookingId }: { bookingId: string }) => bookingId)).toEqual(
    made.items.map(({ id }: Made) => id),
  );
  expect((await world.ada.get(`${world.plans}/${plan.id}`)).body).toEqual(body);
});

test('the batch of a plan is seeded with the seed that was reserved for it', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);
  const { body } = await book(world, plan.id).expect(200);

  await world.ada
    .post(`${world.path}/batches/${body.batchId}/steps`, { kind: 'seeded', at: minutesAgo(1) })
    .expect(201);

  const { body: seed } = await world.ada.get(`${world.path}/lots/${world.seedId}`);
  expect([seed.remainingMassKg, seed.reservedMassKg]).toEqual([2.5, 0]);
  expect(await lotsOutOfBalance(service)).toEqual([]);
});

test('a booked plan is not booked again: the refusal names the batch', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);
  const first = await book(world, plan.id).expect(200);
  const before = await counts(world);

  const { body } = await book(world, plan.id).expect(409);

  expect(body).toMatchObject({ type: '/problems/plan-over', batchId: first.body.batchId });
  expect(await counts(world)).toEqual(before);
});

test('the same key books once', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);
  const key = randomUUID();

  const first = await book(world, plan.id).set('Idempotency-Key', key).expect(200);
  const again = await book(world, plan.id).set('Idempotency-Key', key).expect(200);

  expect(again.body).toEqual(first.body);
  expect(await counts(world)).toEqual({ bookings: 3, batches: 1, seed: 1 });
});

test.each(['warm', 'bench', 'cool'])(
  'whoever comes too late for the %s gets nothing, and a fresh plan that can be booked',
  async (step) => {
    const world = await aWorld();
    // Late enough for a cool room that is taken for weeks.
    const plan = await aPlan(world.ada, world, { latestPotDay: dayAhead(60) });
    await takenByOthers(world, plan, step);

    const key = randomUUID();
    const { body } = await book(world, plan.id).set('Idempotency-Key', key).expect(409);

    expect(body.type).toBe('/problems/plan-taken');
    expect(await counts(world)).toEqual({ bookings: 1, batches: 0, seed: 0 });
    expect(body.plan).toMatchObject({ state: 'offered', inputs: { wish: 'soonest' } });
    expect(body.plan.id).not.toBe(plan.id);
    // The repeat is told the same, and makes no other plan.
    const again = await book(world, plan.id).set('Idempotency-Key', key).expect(409);
    expect(again.body).toEqual(body);
    expect((await world.ada.get(world.plans)).body.items).toHaveLength(2);
    await book(world, body.plan.id as string).expect(200);
    expect(await counts(world)).toEqual({ bookings: 4, batches: 1, seed: 1 });
  },
);

test('where nothing else fits the wish, the refusal says which change of it would do', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);
  await takenByOthers(world, plan);

  const { body } = await book(world, plan.id).expect(409);

  expect(body).toMatchObject({ type: '/problems/plan-taken', plan: null });
  const later = body.changes.find(({ request }: { request: object | null }) => request !== null);
  await aPlan(world.ada, world, later.request as object);
});

test('when the seed is gone, nothing is booked; other seed is proposed where there is some', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);
  await world.ada
    .post(`${world.path}/batches`, {
      name: 'First',
      honey: [{ lotId: world.honeyId, massKg: 1 }],
      seed: [{ lotId: world.seedId, massKg: 3 }],
    })
    .expect(201);

  const { body } = await book(world, plan.id).expect(409);

  expect(body).toMatchObject({ type: '/problems/plan-taken', plan: null, neededSeedKg: 2.5 });
  expect(await counts(world)).toEqual({ bookings: 0, batches: 1, seed: 1 });
});

test('an offer that has expired is not booked; a fresh one comes with the refusal', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);
  await service.prisma.plan.updateMany({
    where: { id: plan.id },
    data: { expiresAt: new Date(Date.now() - 1000) },
  });

  const { body } = await book(world, plan.id).expect(409);

  expect(body.type).toBe('/problems/plan-over');
  expect((await world.ada.get(`${world.plans}/${plan.id}`)).body.state).toBe('expired');
  await book(world, body.plan.id as string).expect(200);
});

test('only whose plan it is, or a steward, books it; a steward books it for that member', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);

  const byBen = await world.ben.post(`${world.plans}/${plan.id}/booking`, { alternative: 0 });
  expect([byBen.status, byBen.body.type]).toEqual([403, '/problems/not-yours']);
  const none = await book(world, plan.id, plan.alternatives.length);
  const noSuch = await book(world, randomUUID());
  const bySteward = await world.steward
    .post(`${world.plans}/${plan.id}/booking`, { alternative: 0 })
    .expect(200);

  expect([none.status, noSuch.status]).toEqual([422, 404]);
  expect(bySteward.body.member.id).toBe(world.ada.memberId);
});

test('a run that is more than a fair share is not booked', async () => {
  const world = await aWorld();
  const plan = await aPlan(world.ada, world);
  await service.prisma.club.update({
    where: { id: world.clubId },
    data: { placeDaysAhead: 10 },
  });

  const { body } = await book(world, plan.id).expect(409);

  expect(body.type).toBe('/problems/fair-share');
  expect(await counts(world)).toEqual({ bookings: 0, batches: 0, seed: 0 });
});
