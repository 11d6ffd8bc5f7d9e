import { aPlan, aPlanRoom, type PlanWorld } from '../support/plan-room';
import { hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();

interface Booked extends PlanWorld {
  ids: Record<string, string>;
}

/** A booked plan of Ada’s, with a day of room before and after. */
async function aBookedPlan(): Promise<Booked> {
  const world = await aPlanRoom(service, await aClub(service));
  const plan = await aPlan(world.ada, world, { earliestStart: hoursLater(new Date(), 72) });
  const { body } = await world.ada
    .post(`${world.plans}/${plan.id}/booking`, { alternative: 0 })
    .expect(200);
  const ids = Object.fromEntries(
    body.bookings.map(({ step, bookingId }: { step: string; bookingId: string }) => [
      step,
      bookingId,
    ]),
  );
  return { ...world, ids };
}

async function timesOf({ ada, bookings, ids }: Booked) {
  const times: Record<string, { startsAt: string; endsAt: string }> = {};
  for (const [step, id] of Object.entries(ids)) {
    const { body } = await ada.get(`${bookings}/${id}`);
    times[step] = { startsAt: body.startsAt as string, endsAt: body.endsAt as string };
  }
  return times as Record<'warm' | 'bench' | 'cool', { startsAt: string; endsAt: string }>;
}

const later = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }, hours: number) => ({
  startsAt: hoursLater(new Date(startsAt), hours).toISOString(),
  endsAt: hoursLater(new Date(endsAt), hours).toISOString(),
});

const move = ({ ada, bookings, ids }: Booked, step: string, change: object) =>
  ada.change(`${bookings}/${ids[step]}`, change);

test('a move that would break the run is refused with the run as it could be, and nothing moves', async () => {
  const booked = await aBookedPlan();
  const before = await timesOf(booked);

  const { status, body } = await move(booked, 'warm', later(before.warm, 24));

  expect([status, body.type]).toEqual([409, '/problems/plan-upset']);
  expect(body.detail).toMatch(/bench would begin before the honey is cool enough/);
  expect(body.chain.map(({ duty }: { duty: string }) => duty)).toEqual(['warm', 'bench', 'cool']);
  expect(body.chain[0]).toMatchObject(later(before.warm, 24));
  expect(await timesOf(booked)).toEqual(before);
});

test('moveTheRest moves all as it was proposed', async () => {
  const booked = await aBookedPlan();
  const before = await timesOf(booked);
  const wanted = later(before.warm, 24);
  const proposed = (await move(booked, 'warm', wanted)).body.chain;

  const { status } = await move(booked, 'warm', { ...wanted, moveTheRest: true });

  expect(status).toBe(200);
  const after = await timesOf(booked);
  expect(after.warm).toEqual(wanted);
  expect([after.bench, after.cool]).toMatchObject([
    { startsAt: proposed[1].startsAt, endsAt: proposed[1].endsAt },
    { startsAt: proposed[2].startsAt, endsAt: proposed[2].endsAt },
  ]);
  const length = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }) =>
    Date.parse(endsAt) - Date.parse(startsAt);
  for (const step of ['warm', 'bench', 'cool'] as const) {
    expect(length(after[step])).toBe(length(before[step]));
  }
});

test('a bench that comes forward draws warming with it; one of its own times stays alone', async () => {
  const booked = await aBookedPlan();
  const before = await timesOf(booked);

  const earlier = await move(booked, 'bench', {
    ...later(before.bench, -24),
    moveTheRest: true,
  });

  expect(earlier.status).toBe(200);
  const after = await timesOf(booked);
  expect(Date.parse(after.warm.endsAt)).toBeLessThan(Date.parse(before.warm.endsAt));
  expect(Date.parse(after.cool.startsAt)).toBeGreaterThanOrEqual(Date.parse(after.bench.endsAt));
});

test('a move that upsets nothing asks nothing, nor does one of a booking without a plan', async () => {
  const booked = await aBookedPlan();
  const before = await timesOf(booked);

  // The cool room is kept a day longer.
  const longer = await move(booked, 'cool', {
    endsAt: hoursLater(new Date(before.cool.endsAt), 24).toISOString(),
  });
  const noted = await move(booked, 'warm', { note: 'The blue pails' });

  expect([longer.status, noted.status]).toEqual([200, 200]);
});

test('moveTheRest false moves it alone', async () => {
  const booked = await aBookedPlan();
  const before = await timesOf(booked);

  const { status } = await move(booked, 'warm', {
    ...later(before.warm, 24),
    moveTheRest: false,
  });

  expect(status).toBe(200);
  expect(await timesOf(booked)).toEqual({ ...before, warm: later(before.warm, 24) });
  // What is broken already is not asked again.
  expect((await move(booked, 'warm', later(before.warm, 25))).status).toBe(200);
});

test('where the rest finds no place nothing moves, and the refusal says so', async () => {
  const booked = await aBookedPlan();
  const before = await timesOf(booked);
  await booked.steward
    .post(`${booked.path}/stations/${booked.benchId}/closures`, {
      startsAt: before.bench.endsAt,
      endsAt: hoursLater(new Date(before.bench.endsAt), 24 * 20).toISOString(),
      reason: 'Repair',
    })
    .expect(201);

  const { status, body } = await move(booked, 'warm', {
    ...later(before.warm, 24),
    moveTheRest: true,
  });

  expect([status, body.type, body.chain]).toEqual([409, '/problems/plan-upset', null]);
  expect(await timesOf(booked)).toEqual(before);
});
