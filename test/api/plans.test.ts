import { randomUUID } from 'node:crypto';
import { countStatements, aLot, aSource } from '../support/lots';
import { aPlan, aPlanRoom, aPlanWish, dayAhead, type PlanWorld } from '../support/plan-room';
import { ahead, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();

async function aWorld(): Promise<PlanWorld> {
  return aPlanRoom(service, await aClub(service));
}

const hoursBetween = (from: string, until: string) =>
  (Date.parse(until) - Date.parse(from)) / 3_600_000;

describe('an offered plan', () => {
  test('is a chain in which all follows from the honey, and holds no places', async () => {
    const world = await aWorld();

    const { body } = await world.ada.post(world.plans, aPlanWish(world)).expect(201);

    expect(body).toMatchObject({
      state: 'offered',
      batchId: null,
      member: { id: world.ada.memberId },
      seed: { lotId: world.seedId, massKg: 2.5 },
      inputs: { pails: [{ count: 1, massKg: 25 }], seedPercent: 10, wish: 'soonest' },
      bookings: [],
    });
    expect(body.alternatives.length).toBeGreaterThan(0);
    for (const { slots, heat, coolEnoughAt, pottedAt } of body.alternatives) {
      const [warm, bench, cool] = slots;
      expect(slots.map(({ step }: { step: string }) => step)).toEqual(['warm', 'bench', 'cool']);
      expect([warm.stationId, bench.stationId, cool.stationId]).toEqual([
        world.cabinetId,
        world.benchId,
        world.coolRoomId,
      ]);
      expect(hoursBetween(warm.startsAt, warm.endsAt)).toBe(heat.warmHours);
      expect(hoursBetween(warm.endsAt, coolEnoughAt)).toBe(heat.coolingHours);
      expect(Date.parse(bench.startsAt)).toBeGreaterThanOrEqual(Date.parse(coolEnoughAt));
      expect(bench.endsAt).toBe(pottedAt);
      expect(Date.parse(cool.startsAt)).toBeGreaterThanOrEqual(Date.parse(pottedAt));
      expect(hoursBetween(cool.startsAt, cool.endsAt)).toBe(24 * body.hold.days);
    }
    expect(hoursBetween(body.createdAt, body.expiresAt)).toBe(0.5);
    const { body: bookings } = await world.ada.get(world.bookings);
    expect(bookings.items).toEqual([]);
    const { body: seed } = await world.ada.get(`${world.path}/lots/${world.seedId}`);
    expect(seed.reservedMassKg).toBe(0);
  });

  test('comes first as it was wished, and the gentlest is the gentlest', async () => {
    const world = await aWorld();

    const soonest = await aPlan(world.ada, world);
    const gentlest = await aPlan(world.ada, world, { wish: 'gentlest' });

    expect(soonest.alternatives[0]!.bestAt).toContain('soonest');
    expect(gentlest.alternatives[0]!.bestAt).toContain('gentlest');
    const potted = soonest.alternatives.map(({ pottedAt }) => pottedAt);
    expect(potted[0]).toBe(potted.toSorted()[0]);
    const left = gentlest.alternatives.map(({ heat }) => heat.diastaseLeftPercent);
    expect(left[0]).toBe(Math.max(...left));
    expect(left[0]).toBeGreaterThanOrEqual(soonest.alternatives[0]!.heat.diastaseLeftPercent);
  });

  test('is the same under its own address, and stands in the list of whose it is', async () => {
    const world = await aWorld();
    const made = await world.ada.post(world.plans, aPlanWish(world)).expect(201);

    const read = await world.ada.get(`${world.plans}/${made.body.id}`).expect(200);
    expect(read.body).toEqual(made.body);
    expect(read.headers['etag']).toBe(made.headers['etag']);
    expect(made.headers['location']).toContain(made.body.id);
    const ofAda = await world.ada.get(world.plans);
    const ofBen = await world.ben.get(world.plans);
    const ofSteward = await world.steward.get(world.plans);
    expect([ofAda, ofBen, ofSteward].map(({ body }) => body.items.length)).toEqual([1, 0, 1]);
    const byBen = await world.ben.get(`${world.plans}/${made.body.id}`).expect(403);
    expect(byBen.body.type).toBe('/problems/not-yours');
    await world.ada.get(`${world.plans}/${randomUUID()}`).expect(404);
  });

  test('warms, seeds and stores when the member can come', async () => {
    const world = await aWorld();
    const comes = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({
      weekday,
      opens: '17:00',
      closes: '21:30',
    }));

    const { body } = await world.ada.post(world.plans, aPlanWish(world, { comes })).expect(201);

    const clock = new Intl.DateTimeFormat('en-GB', {
      timeZone: 'Europe/Vienna',
      hour: '2-digit',
      minute: '2-digit',
    });
    expect(body.alternatives.length).toBeGreaterThan(0);
    for (const { handsOn } of body.alternatives) {
      expect(handsOn).toHaveLength(5);
      for (const { at, until } of handsOn as { at: string; until: string }[]) {
        for (const time of [at, until]) {
          const shown = clock.format(new Date(time));
          expect([shown >= '17:00' && shown <= '21:30', shown]).toEqual([true, shown]);
        }
      }
    }
  });

  test('holds the cool room a few days longer where nobody could come to fetch it on the day foretold', async () => {
    const world = await aWorld();
    const comes = [6].map((weekday) => ({ weekday, opens: '08:00', closes: '20:00' }));
    const comesAt = [1, 2, 3, 4, 5, 6, 7].map((days) => ({
      startsAt: ahead(days),
      endsAt: ahead(days + 1),
    }));

    const { body } = await world.ada
      .post(world.plans, aPlanWish(world, { comes, comesAt, latestPotDay: dayAhead(7) }))
      .expect(201);

    const [{ slots }] = body.alternatives;
    const fetched = new Intl.DateTimeFormat('en-GB', {
      timeZone: 'Europe/Vienna',
      weekday: 'long',
    }).format(new Date(slots.at(-1).endsAt));
    expect(fetched).toBe('Saturday');
    const days = (Date.parse(slots.at(-1).endsAt) - Date.parse(slots.at(-1).startsAt)) / 86_400_000;
    expect(Math.round(days)).toBe(body.hold.days);
  });

  test('keeps to the times of the calendar that the member named', async () => {
    const world = await aWorld();
    const span = (from: number, hours: number) => ({
      startsAt: ahead(from, 9).toISOString(),
      endsAt: hoursLater(ahead(from, 9), hours).toISOString(),
    });
    const comesAt = [span(2, 2), span(4, 2), span(5, 4)];

    const { body } = await world.ada.post(world.plans, aPlanWish(world, { comesAt })).expect(201);

    const within = (time: string) =>
      comesAt.some(({ startsAt, endsAt }) => time >= startsAt && time <= endsAt);
    const [load, takeOut, pot] = body.alternatives[0].handsOn;
    expect([load.at, takeOut.at, pot.at, pot.until].map(within)).toEqual(Array(4).fill(true));
  });

  test('goes round what others have booked, and says what it would be without', async () => {
    const world = await aWorld();
    const free = await aPlan(world.ada, world);
    const [warm] = free.alternatives[0]!.slots;
    await world.steward
      .post(world.bookings, {
        stationId: world.cabinetId,
        duty: 'warm',
        minC: 40,
        maxC: 55,
        startsAt: warm!.startsAt,
        endsAt: hoursLater(new Date(warm!.startsAt), 48).toISOString(),
        places: 2,
      })
      .expect(201);

    const { body } = await world.ada.post(world.plans, aPlanWish(world)).expect(201);

    const [soonest] = body.alternatives;
    expect(Date.parse(soonest.pottedAt)).toBeGreaterThan(
      Date.parse(free.alternatives[0]!.pottedAt),
    );
    expect(soonest.whyNotSooner.obstacles).toContainEqual(
      expect.objectContaining({ reason: 'places', slot: 'warm', stationName: 'Warming cabinet' }),
    );
    expect(soonest.whyNotSooner.inWords).toMatch(/Warming cabinet: too few places are free/);
  });

  test('asks for few statements, however full the room is', async () => {
    const world = await aWorld();
    await aPlan(world.ada, world);

    const count = await countStatements(() => world.ada.post(world.plans, aPlanWish(world)));

    // Caller, honey and seed, room, batches of the forecast; begin, plan, history, the plan read again, commit.
    expect(count).toBeLessThanOrEqual(10);
  });

  test('a steward plans for a member; a member for nobody else', async () => {
    const world = await aWorld();
    const forAda = aPlanWish(world, { memberId: world.ada.memberId });

    const bySteward = await world.steward.post(world.plans, forAda).expect(201);
    const byBen = await world.ben.post(world.plans, forAda).expect(403);
    const withAdasHoney = await world.ben.post(world.plans, aPlanWish(world)).expect(403);

    expect(bySteward.body.member.id).toBe(world.ada.memberId);
    expect(byBen.body.type).toBe('/problems/not-allowed');
    expect(withAdasHoney.body.type).toBe('/problems/not-yours');
  });

  test('the same key plans once', async () => {
    const world = await aWorld();
    const key = randomUUID();
    const send = () => world.ada.post(world.plans, aPlanWish(world)).set('Idempotency-Key', key);

    const first = await send().expect(201);
    const again = await send().expect(201);

    expect(again.body).toEqual(first.body);
    expect((await world.ada.get(world.plans)).body.items).toHaveLength(1);
  });
});

describe('seed', () => {
  test('any that fits is the nearest in floral source, not the coarse, not the reserved, not that of others', async () => {
    const world = await aWorld();
    const { ada, ben, sourceId } = world;
    const other = await aSource(service, world.clubId);
    const lots = `${world.path}/lots`;
    const seed = async (grain: string, source: string, massKg = 4, actor = ada) => {
      const id = await aLot(actor, world, source, { kind: 'seed', massKg });
      await actor.change(`${lots}/${id}`, { grain });
      return id;
    };
    const far = await seed('fine', other);
    const coarse = await seed('coarse', sourceId);
    const bens = await seed('fine', sourceId, 4, ben);
    const little = await seed('fine', sourceId, 2);
    const near = await seed('fine', sourceId);

    const { body } = await ada.post(world.plans, aPlanWish(world)).expect(201);
    expect(body.seed.lotId).toBe(near);
    expect([far, coarse, bens, little]).not.toContain(body.seed.lotId);
    expect(body.seed.why).toMatch(/100 percent .* same floral source/);

    const honey = [{ lotId: world.honeyId, massKg: 1 }];
    await ada
      .post(`${world.path}/batches`, { name: 'B', honey, seed: [{ lotId: near, massKg: 2 }] })
      .expect(201);
    const { body: next } = await ada.post(world.plans, aPlanWish(world)).expect(201);
    expect(next.seed.lotId).toBe(far);
  });

  test('seed on hold is not chosen; named, it comes with a warning', async () => {
    const club = await aClub(service);
    const world = await aPlanRoom(service, club);
    const hold = { reason: 'It smells of yeast.' };
    await world.ada.post(`${world.path}/lots/${world.seedId}/holds`, hold).expect(201);

    const refused = await world.ada.post(world.plans, aPlanWish(world)).expect(409);
    const named = { seedLotId: world.seedId };
    const planned = await world.ada.post(world.plans, aPlanWish(world, named)).expect(201);

    expect(refused.body.detail).toContain('All seed that the member holds is on hold.');
    expect(planned.body.warnings.join(' ')).toContain('The seed is on hold');
  });

  test('none that fits: the refusal says how much is needed, and who has some', async () => {
    const club = await aClub(service);
    const world = await aPlanRoom(service, club);
    const honeyId = await aLot(world.ben, world, world.sourceId);

    const { body } = await world.ben
      .post(world.plans, aPlanWish({ honeyId }, { seedPercent: 12 }))
      .expect(409);

    expect(body).toMatchObject({
      type: '/problems/no-plan',
      neededSeedKg: 3,
      seedOfOthers: [{ lotId: world.seedId, holderId: world.ada.memberId, freeMassKg: 5 }],
    });
  });

  test('that was named must be there, be enough and be the member’s; coarse seed is warned of', async () => {
    const world = await aWorld();
    const { ada, ben, sourceId, seedId } = world;
    const plan = (different: object) => ada.post(world.plans, aPlanWish(world, different));
    const bens = await aLot(ben, world, sourceId, { kind: 'seed' });
    await ada.change(`${world.path}/lots/${seedId}`, { grain: 'coarse' });

    const coarse = await plan({ seedLotId: seedId }).expect(201);
    const unknown = await plan({ seedLotId: world.honeyId }).expect(422);
    const others = await plan({ seedLotId: bens }).expect(409);
    const tooLittle = await plan({ seedLotId: seedId, seedPercent: 30 }).expect(409);
    await ada
      .post(`${world.path}/batches`, {
        name: 'B',
        honey: [{ lotId: world.honeyId, massKg: 1 }],
        seed: [{ lotId: seedId, massKg: 3 }],
      })
      .expect(201);
    const reserved = await plan({ seedLotId: seedId }).expect(409);
    const noneFine = await plan({}).expect(409);

    expect(coarse.body.warnings.join()).toMatch(/seed is coarse and the honey would set fine/);
    expect(unknown.body.errors[0].pointer).toBe('#/seedLotId');
    expect(others.body.type).toBe('/problems/lot-unsuitable');
    expect(tooLittle.body).toMatchObject({
      type: '/problems/not-enough-mass',
      neededMassKg: 7.5,
    });
    expect(reserved.body).toMatchObject({ type: '/problems/seed-reserved', freeMassKg: 2 });
    expect(noneFine.body.type).toBe('/problems/no-plan');
  });
});

describe('what cannot be planned', () => {
  test('too late: the smallest change is named, and makes it possible', async () => {
    const world = await aWorld();

    const { body } = await world.ada
      .post(world.plans, aPlanWish(world, { latestPotDay: dayAhead(1) }))
      .expect(409);

    expect(body.type).toBe('/problems/no-plan');
    const later = body.changes.find(({ kind }: { kind: string }) => kind === 'pot-later');
    expect(later.request.latestPotDay > dayAhead(1)).toBe(true);
    expect(later.slots).toHaveLength(3);
    expect(body.detail).toContain(body.changes[0].inWords);
    const changed = await world.ada.post(world.plans, aPlanWish(world, later.request)).expect(201);
    expect(changed.body.alternatives[0].pottedAt).toBe(later.pottedAt);
  });

  test('in a room that lacks something, the refusal says what', async () => {
    const world = await aPlanRoom(service, await aClub(service), { coolPlaces: 1 });
    const bare = await aClub(service);
    const honeyId = await aLot(bare.ada, bare, await aSource(service, bare.clubId));
    const seed = { kind: 'seed' as const };
    await aLot(bare.ada, bare, await aSource(service, bare.clubId), seed);

    const full = await world.ada.post(world.plans, aPlanWish(world)).expect(409);
    const tooCool = await world.ada
      .post(world.plans, aPlanWish(world, { crates: 1, coolMinC: 1, coolMaxC: 3 }))
      .expect(409);
    const none = await bare.ada.post(`${bare.path}/plans`, aPlanWish({ honeyId })).expect(409);

    expect(full.body.detail).toMatch(/2 crates .* takes 1/);
    expect(tooCool.body.detail).toMatch(/1 to 3 °C takes 0/);
    expect(none.body.type).toBe('/problems/no-plan');
    expect(none.body.detail).toMatch(/no stations/);
  });

  test.each<[string, string, object]>([
    ['a lot that is not there', '#/honey/0/lotId', { honey: [{ lotId: randomUUID(), massKg: 1 }] }],
    ['a day that is over', '#/latestPotDay', { latestPotDay: '2020-01-01' }],
    ['a day far ahead', '#/latestPotDay', { latestPotDay: dayAhead(200) }],
    [
      'hours that end before they begin',
      '#/comes/0/closes',
      { comes: [hoursOf('10:00', '09:00')] },
    ],
    ['a clock that shows no such time', '#/comes/0/opens', { comes: [hoursOf('25:00', '26:00')] }],
    ['air no warmer than clear honey', '#/hottestC', { hottestC: 40 }],
    ['a band upside down', '#/coolMaxC', { coolMinC: 14, coolMaxC: 13 }],
    ['more pots than honey', '#/pots', { pots: [{ netMassKg: 0.5, count: 100 }] }],
    ['an unknown field', '#/colour', { colour: 'gold' }],
  ])('%s is refused at its place, and nothing is made', async (_, pointer, different) => {
    const world = await aWorld();

    const { body } = await world.ada.post(world.plans, aPlanWish(world, different)).expect(422);

    expect(body.errors[0].pointer).toBe(pointer);
    expect((await world.ada.get(world.plans)).body.items).toEqual([]);
  });

  test('pails must hold the honey, and be no heavier than a place bears', async () => {
    const world = await aWorld();
    const plan = (massKg: number, pails: object[]) =>
      world.ada.post(
        world.plans,
        aPlanWish(world, { honey: [{ lotId: world.honeyId, massKg, pails }] }),
      );

    const other = await plan(25, [{ count: 2, massKg: 12 }]).expect(422);
    const heavy = await plan(25, [{ count: 1, massKg: 31 }]).expect(422);
    const tooMuch = await plan(26, [{ count: 2, massKg: 13 }]).expect(409);
    const small = await plan(25, [{ count: 2, massKg: 12.5 }]).expect(201);

    expect(other.body.errors[0].pointer).toBe('#/honey/0/pails');
    expect(heavy.body.errors[0].pointer).toMatch(/^#\/honey\/0\/pails/);
    expect(tooMuch.body).toMatchObject({ type: '/problems/not-enough-mass', remainingMassKg: 25 });
    const one = await aPlan(world.ada, world);
    expect(small.body.alternatives[0].slots[0].places).toHaveLength(2);
    // Smaller pails are clear sooner.
    expect(small.body.alternatives[0].heat.warmHours).toBeLessThan(
      one.alternatives[0]!.heat.warmHours,
    );
  });
});

test('pots make crates, and honey that does not set is warned of', async () => {
  const world = await aWorld();
  const still = await service.prisma.floralSource.create({
    data: { clubId: world.clubId, name: 'False acacia', grain: 'fine', sets: false },
  });
  const honeyId = await aLot(world.ada, world, still.id);
  // Half a kilogram, with two fifths of it for glass and lid: 42 to a place that bears 30 kg.
  const pots = [{ netMassKg: 0.5, count: 50 }];

  const { body } = await world.ada.post(world.plans, aPlanWish({ honeyId }, { pots })).expect(201);

  expect(body.inputs.crates).toBe(2);
  expect(body.warnings.join()).toMatch(/100 percent of the honey is False acacia, .* does not set/);
  expect(body.warnings.join()).toMatch(/rests on no batch of the club/);
});

function hoursOf(opens: string, closes: string) {
  return { weekday: 1, opens, closes };
}
