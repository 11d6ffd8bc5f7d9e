import { seededRandom } from '../../src/core/random';
import { breaches } from '../support/checker';
import { aLot, aSource, minutesAgo } from '../support/lots';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

// A thousand rounds of members who do at the same moment whatever comes into their heads, in one small room and with few lots. After
// them an outsider reads the database and finds nothing broken.

const service = useService();
const rounds = Number(process.env['ROUNDS'] ?? 1000);
const seed = Number(process.env['SEED'] ?? 20261125);

test(`after ${rounds} rounds nothing is double-booked, overdrawn or out of balance (seed ${seed})`, async () => {
  const random = seededRandom(seed);
  const club = await aClub(service);
  const deeds = await whatMembersDo(club, (count) => Math.floor(random() * count));
  const actors = [club.ada, club.ben, club.steward];
  const counts: Record<string, number> = {};

  for (let round = 0; round < rounds; round++) {
    const answers = await Promise.all(
      Array.from({ length: 4 }, async () => {
        const [name, deed] = deeds[Math.floor(random() * deeds.length)]!;
        const status = await deed(actors[Math.floor(random() * actors.length)]!);
        return `${name} ${status}`;
      }),
    );
    for (const answer of answers) counts[answer] = (counts[answer] ?? 0) + 1;
  }

  expect(await breaches(service.database)).toEqual([]);
  expect(Object.keys(counts).filter((answer) => / 5\d\d$/.test(answer))).toEqual([]);
  // Something was done, and deeds got in each other's way.
  expect(Object.keys(counts)).toEqual(
    expect.arrayContaining([
      'book 201',
      'book 409',
      'move 200',
      'move 409',
      'cancel 204',
      'wait 201',
      'wait 409',
      'take 200',
      'give up 204',
      'close 201',
      'close 409',
      'resize 200',
      'resize 409',
      'serve 200',
      'serve 409',
      'withdraw 201',
      'withdraw 409',
      'cream 201',
      'cream 409',
    ]),
  );
}, 600_000);

type Deed = (actor: Actor) => Promise<number>;

async function whatMembersDo(
  club: ClubWorld,
  below: (count: number) => number,
): Promise<[string, Deed][]> {
  const stationId = await aCabinet(club, 3);
  const sourceId = await aSource(service, club.clubId);
  const honey = await lotsOf(club, sourceId, 'honey');
  const seeds = await lotsOf(club, sourceId, 'seed');
  const bookings = `${club.path}/bookings`;
  const line = `${club.path}/waiting-list`;
  const station = `${club.path}/stations/${stationId}`;
  const closures = `${station}/closures`;
  const warm = { duty: 'warm', minC: 30, maxC: 55 };
  const cool = { duty: 'cool', minC: 8, maxC: 18 };

  const someTime = () => {
    const startsAt = hoursLater(ahead(2), below(300));
    return { startsAt, endsAt: hoursLater(startsAt, 1 + below(40)) };
  };
  const someBand = () => {
    const minC = 35 + below(10);
    return { minC, maxC: minC + below(6) };
  };
  const someWish = () =>
    below(4) === 0
      ? aWish(stationId, { ...someTime(), duty: 'cool', minC: 10, maxC: 14, places: 1 + below(3) })
      : aWish(stationId, { ...someTime(), ...someBand(), places: 1 + below(3) });
  const some = async (list: string): Promise<string> => {
    const { body } = await club.ada.get(`${list}?limit=200`);
    const items = body.items as { id: string }[];
    return `${list}/${items[below(items.length)]?.id ?? stationId}`;
  };

  return [
    ['book', async (actor) => (await actor.post(bookings, someWish())).status],
    ['book', async (actor) => (await actor.post(bookings, someWish())).status],
    ['move', async () => (await club.steward.change(await some(bookings), someTime())).status],
    ['cancel', async () => (await club.steward.remove(await some(bookings))).status],
    [
      'wait',
      async (actor) => {
        const { startsAt, endsAt } = someTime();
        const times = { notBefore: startsAt, notAfter: hoursLater(endsAt, below(10)) };
        const minutes = (endsAt.getTime() - startsAt.getTime()) / 60_000;
        const wish = { stationId, duty: 'warm', ...someBand(), places: 1 + below(3), minutes };
        return (await actor.post(line, { ...wish, ...times })).status;
      },
    ],
    ['take', async () => (await club.steward.post(`${await some(line)}/acceptance`)).status],
    ['give up', async () => (await club.steward.remove(await some(line))).status],
    [
      'close',
      async () => (await club.steward.post(closures, { ...someTime(), reason: 'Cleaning' })).status,
    ],
    [
      'resize',
      async () => {
        const change = { places: 2 + below(3), otherPlaces: below(2) === 0 };
        return (await club.steward.change(station, change)).status;
      },
    ],
    [
      'serve',
      async () => {
        const duties = [warm, cool].slice(0, 1 + below(2));
        return (await club.steward.change(station, { duties })).status;
      },
    ],
    ['open', async () => (await club.steward.remove(await some(closures))).status],
    [
      'withdraw',
      async () => {
        const lots = below(2) === 0 ? honey : seeds;
        const path = `${club.path}/lots/${lots[below(lots.length)]!}/withdrawals`;
        const what = { kind: 'lost', massKg: (1 + below(400)) / 1000, at: minutesAgo(1) };
        return (await club.steward.post(path, what)).status;
      },
    ],
    [
      'cream',
      async () => {
        const lotId = honey[below(honey.length)]!;
        const plan = { name: 'Race', honey: [{ lotId, massKg: (1 + below(900)) / 1000 }] };
        const { status, body } = await club.steward.post(`${club.path}/batches`, {
          ...plan,
          memberId: club.ada.memberId,
        });
        if (status !== 201) return status;
        const used = [seeds[below(seeds.length)]!, seeds[below(seeds.length)]!];
        const seed = [...new Set(used)].map((id) => ({
          lotId: id,
          massKg: (1 + below(90)) / 1000,
        }));
        const step = { kind: 'seeded', at: minutesAgo(0.1), seed };
        return (await club.steward.post(`${club.path}/batches/${body.id}/steps`, step)).status;
      },
    ],
  ];
}

function lotsOf(club: ClubWorld, sourceId: string, kind: 'honey' | 'seed'): Promise<string[]> {
  const massKg = kind === 'honey' ? 12 : 1.5;
  return Promise.all(
    Array.from({ length: 4 }, () => aLot(club.ada, club, sourceId, { kind, massKg })),
  );
}
