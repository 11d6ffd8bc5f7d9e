import { seededRandom } from '../../src/core/random';
import { breaches } from '../support/checker';
import { aLot } from '../support/lots';
import { aPlanRoom, aPlanWish, dayAhead, type Plan, type PlanWorld } from '../support/plan-room';
import { useService } from '../support/service';
import { aClub, aMember, type Actor } from '../support/world';

// Many members plan whole runs through one small room and book them at the same moment, while others cancel, release, move and draw seed.
// After them an outsider reads the database. Whoever was refused got something that could be booked, or a change of the wish that would do.

const service = useService();
const members = Number(process.env['MEMBERS'] ?? 16);
const seconds = Number(process.env['RACE_SECONDS'] ?? 20);
const seed = Number(process.env['SEED'] ?? 20261128);

interface Maker {
  actor: Actor;
  honeyId: string;
  seedId: string;
}

test(
  `${members} members who book whole runs at once for ${seconds} s get all of one or nothing (seed ${seed})`,
  async () => {
    const random = seededRandom(seed);
    const below = (count: number) => Math.floor(random() * count);
    const world = await aPlanRoom(service, await aClub(service), {
      cabinetPlaces: 6,
      benchPlaces: 1,
      coolPlaces: 30,
    });
    const makers = await Promise.all(
      Array.from({ length: members }, (_, index) => aMaker(world, index)),
    );
    const counts: Record<string, number> = {};
    const unhelpful: string[] = [];
    const note = (deed: string, status: number) => {
      counts[`${deed} ${status}`] = (counts[`${deed} ${status}`] ?? 0) + 1;
    };

    const end = Date.now() + seconds * 1000;
    await Promise.all(
      makers.map(async (maker) => {
        while (Date.now() < end) {
          await planAndBook(world, maker, note, unhelpful);
          await disturb(world, maker, below, note);
        }
      }),
    );

    expect(await breaches(service.database)).toEqual([]);
    expect(Object.keys(counts).filter((answer) => / 5\d\d$/.test(answer))).toEqual([]);
    expect(unhelpful).toEqual([]);
    expect(Object.keys(counts)).toEqual(
      expect.arrayContaining(['plan 201', 'book 200', 'book 409', 'cancel 204', 'fresh 200']),
    );
  },
  (seconds + 280) * 1000,
);

async function aMaker(world: PlanWorld, index: number): Promise<Maker> {
  const actor = index === 0 ? world.ada : await aMember(service, world.clubId, 'member');
  const honeyId = await aLot(actor, world, world.sourceId, { massKg: 2000 });
  const seedId = await aLot(actor, world, world.sourceId, { kind: 'seed', massKg: 60 });
  return { actor, honeyId, seedId };
}

type Note = (deed: string, status: number) => void;

/** Plans, and books what was offered; whoever was too late books what was offered instead. */
async function planAndBook(
  world: PlanWorld,
  { actor, honeyId }: Maker,
  note: Note,
  unhelpful: string[],
): Promise<void> {
  const wish = aPlanWish(
    { honeyId },
    { honey: [{ lotId: honeyId, massKg: 20 }], latestPotDay: dayAhead(50) },
  );
  const planned = await actor.post(world.plans, wish);
  note('plan', planned.status);
  if (planned.status !== 201) {
    if (!offersSomething(planned.body)) unhelpful.push(JSON.stringify(planned.body));
    return;
  }
  const book = (id: string) => actor.post(`${world.plans}/${id}/booking`, { alternative: 0 });
  const booked = await book((planned.body as Plan).id);
  note('book', booked.status);
  if (booked.status === 200) return;
  if (!offersSomething(booked.body)) unhelpful.push(JSON.stringify(booked.body));
  const fresh = (booked.body as { plan?: Plan | null }).plan;
  if (fresh) note('fresh', (await book(fresh.id)).status);
}

/** A fresh plan, a change that would do, seed to borrow, or at least what is left of something. */
function offersSomething(body: Record<string, unknown>): boolean {
  const { plan, changes, seedOfOthers } = body as {
    plan?: object | null;
    changes?: unknown[];
    seedOfOthers?: unknown[];
  };
  return (plan ?? null) !== null || (changes ?? []).length > 0 || (seedOfOthers ?? []).length > 0;
}

/** Cancels, releases or moves a booking of one’s own, or draws some of one’s seed. */
async function disturb(
  world: PlanWorld,
  { actor, seedId }: Maker,
  below: (count: number) => number,
  note: Note,
): Promise<void> {
  const { body } = await actor.get(`${world.bookings}?memberId=${actor.memberId}&limit=50`);
  const own = body.items as { id: string; startsAt: string; endsAt: string }[];
  const one = own[below(Math.max(1, own.length))];
  switch (below(4)) {
    case 0:
      if (one) note('cancel', (await actor.remove(`${world.bookings}/${one.id}`)).status);
      break;
    case 1:
      if (one) note('release', (await actor.post(`${world.bookings}/${one.id}/release`)).status);
      break;
    case 2:
      if (one) {
        const later = (time: string) => new Date(Date.parse(time) + 86_400_000).toISOString();
        const change = {
          startsAt: later(one.startsAt),
          endsAt: later(one.endsAt),
          moveTheRest: true,
        };
        note('move', (await actor.change(`${world.bookings}/${one.id}`, change)).status);
      }
      break;
    default: {
      const what = { kind: 'lost', massKg: 0.1, at: new Date(Date.now() - 1000).toISOString() };
      note('draw', (await actor.post(`${world.path}/lots/${seedId}/withdrawals`, what)).status);
    }
  }
}
