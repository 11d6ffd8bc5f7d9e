import { seededRandom } from '../../src/core/random';
import { breaches } from '../support/checker';
import { aLot, aSource, lotsOutOfBalance, minutesAgo } from '../support/lots';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

// Members who withdraw, lend, use, pot, correct and hold all at once. After them every ledger closes, no lot is below nothing, and all
// that was ever brought in is somewhere: OPERATIONS=100000 for a long run.

const service = useService();
const operations = Number(process.env['OPERATIONS'] ?? 3000);
const seed = Number(process.env['SEED'] ?? 20261128);
const atOnce = 8;
const broughtInKg = 60;

test(`after ${operations} operations at random nothing was lost or made (seed ${seed})`, async () => {
  const random = seededRandom(seed);
  const club = await aClub(service);
  const deeds = await whatMembersDo(club, (count) => Math.floor(random() * count));
  const counts: Record<string, number> = {};
  let left = operations;
  const member = async () => {
    while (left > 0) {
      left -= 1;
      const [name, deed] = deeds[Math.floor(random() * deeds.length)]!;
      const outcome = `${name} ${await deed()}`;
      counts[outcome] = (counts[outcome] ?? 0) + 1;
    }
  };

  await Promise.all(Array.from({ length: atOnce }, member));

  expect(await breaches(service.database)).toEqual([]);
  expect(await lotsOutOfBalance(service)).toEqual([]);
  const [masses] = await service.database.query<{ broughtInG: number; somewhereG: number }>(
    `select sum(initial_mass_g) filter (where depth = 0)::int as "broughtInG",
       sum(remaining_mass_g + potted_mass_g + lost_mass_g + greatest(input_mass_g - initial_mass_g, 0)
         + used_mass_g + lent_mass_g - (select coalesce(sum(i.mass_g), 0) from lot_input i where i.parent_id = lot.id))::int as "somewhereG"
     from lot where club_id = $1`,
    [club.clubId],
  );
  expect(masses).toEqual({
    broughtInG: broughtInKg * 1000 * 12,
    somewhereG: broughtInKg * 1000 * 12,
  });
  const done = Object.keys(counts);
  expect(done.filter((outcome) => / 5\d\d$/.test(outcome))).toEqual([]);
  expect(done).toEqual(
    expect.arrayContaining([
      'withdraw 201',
      'lend 201',
      'use 201',
      'pot 201',
      'correct 201',
      'hold 201',
      'release 200',
      // They got in each other's way.
      'withdraw 409',
      'correct 409',
    ]),
  );
}, 3_600_000);

type Deed = () => Promise<number>;

async function whatMembersDo(
  club: ClubWorld,
  below: (count: number) => number,
): Promise<[string, Deed][]> {
  const { ada, ben, steward, path } = club;
  const sourceId = await aSource(service, club.clubId);
  const bring = (kind: 'honey' | 'seed', actor: Actor) =>
    aLot(actor, club, sourceId, { kind, massKg: broughtInKg });
  const honey = await Promise.all([ada, ada, ben, ben].map((actor) => bring('honey', actor)));
  const seeds = await Promise.all(
    [ada, ada, ada, ada, ben, ben, ben, ben].map((actor) => bring('seed', actor)),
  );
  const creamed: string[] = [];
  const toBePotted: string[] = [];
  const openHolds: string[] = [];
  const some = (list: readonly string[]) => list[below(list.length)]!;
  const massKg = (grams: number) => (1 + below(grams)) / 1000;
  const justNow = () => minutesAgo(0);

  const withdraw: Deed = async () => {
    const lotId = some([...honey, ...seeds, ...creamed]);
    const kind = (['lost', 'used', 'potted'] as const)[below(3)]!;
    const what = { kind, massKg: massKg(600), at: justNow() };
    return (await steward.post(`${path}/lots/${lotId}/withdrawals`, what)).status;
  };
  const lend: Deed = async () => {
    const borrowerId = (below(2) === 0 ? ada : ben).memberId;
    const what = { lotId: some(seeds), borrowerId, massKg: massKg(2000), at: justNow() };
    const { status, body } = await steward.post(`${path}/loans`, what);
    if (status === 201) seeds.push(String(body.toLot.id));
    // To lend to oneself is refused: not a race.
    return status === 422 ? 409 : status;
  };
  const use: Deed = async () => {
    const planned = await steward.post(`${path}/batches`, {
      name: 'Race',
      memberId: ada.memberId,
      honey: [{ lotId: some(honey), massKg: massKg(300) }],
    });
    if (planned.status !== 201) return planned.status;
    const used = [...new Set([some(seeds), some(seeds)])];
    const seedOf = used.map((lotId) => ({ lotId, massKg: massKg(200) }));
    const step = { kind: 'seeded', at: justNow(), seed: seedOf, lossKg: 0.001 };
    const batch = `${path}/batches/${String(planned.body.id)}`;
    const { status, body } = await steward.post(`${batch}/steps`, step);
    if (status === 201) {
      creamed.push(String(body.madeLotId));
      toBePotted.push(batch);
    }
    return status;
  };
  const pot: Deed = async () => {
    const batch = toBePotted.splice(below(toBePotted.length), 1)[0];
    if (batch === undefined) return use();
    const pots = [{ netMassKg: massKg(40), count: 1 + below(3) }];
    const step = { kind: 'potted', at: justNow(), pots, seedPutByKg: massKg(30) };
    const { status, body } = await steward.post(`${batch}/steps`, step);
    if (status === 201) seeds.push(String(body.madeLotId));
    return status;
  };
  const correct: Deed = async () => {
    if (creamed.length === 0) return use();
    const lotId = some(creamed);
    const { body: up } = await steward.get(`${path}/lots/${lotId}/ancestors`);
    const parents = (up.items as { lotId: string; kind: string; nearestSteps: number }[]).filter(
      ({ nearestSteps, kind }) => nearestSteps === 1 && kind === 'seed',
    );
    const wrongLotId = some(parents.map((parent) => parent.lotId));
    const what = { wrongLotId, rightLotId: some(seeds), massKg: massKg(100), because: 'Mixed up' };
    const { status } = await steward.post(`${path}/lots/${lotId}/corrections`, what);
    // The right lot may be the wrong one again.
    return status === 422 ? 409 : status;
  };
  const hold: Deed = async () => {
    if (openHolds.length > 2) return release();
    const { status, body } = await ben.post(`${path}/lots/${some([...seeds, ...creamed])}/holds`, {
      reason: 'Vinegar',
    });
    openHolds.push(String(body.id));
    return status;
  };
  const release: Deed = async () => {
    const holdId = openHolds.pop();
    if (holdId === undefined) return withdraw();
    const what = { because: 'Good', evidence: 'Tasted' };
    return (await ben.post(`${path}/holds/${holdId}/release`, what)).status;
  };
  return [
    ['withdraw', withdraw],
    ['withdraw', withdraw],
    ['withdraw', withdraw],
    ['lend', lend],
    ['use', use],
    ['pot', pot],
    ['correct', correct],
    ['correct', correct],
    ['hold', hold],
    ['release', release],
  ];
}
