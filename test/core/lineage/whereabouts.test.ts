import fc from 'fast-check';
import type { LotEdge } from '../../../src/core/lineage/lot-graph';
import { ONE, ZERO } from '../../../src/core/lineage/rational';
import { descendantShares } from '../../../src/core/lineage/shares';
import { whereabouts, type LotMasses } from '../../../src/core/lineage/whereabouts';
import { randomLots } from './random-lots';

const ledger = (lotId: string, masses: Partial<LotMasses>): LotMasses => ({
  lotId,
  inputMassG: 0,
  initialMassG: 0,
  remainingMassG: 0,
  usedMassG: 0,
  lentMassG: 0,
  pottedMassG: 0,
  lostMassG: 0,
  ...masses,
});

function found(suspectId: string, lots: LotMasses[], edges: LotEdge[]) {
  const shares = descendantShares(edges, suspectId);
  return whereabouts(suspectId, lots, edges, (id) =>
    id === suspectId ? ONE : (shares.get(id)?.share ?? ZERO),
  );
}

test('a seed, worked by hand: 1 kg of it is a tenth of a batch, of which half is in pots', () => {
  // 3 kg of seed: 1 kg into 10 kg, of which 1 kg was lost in the making, 4.5 kg are in pots and 0.1 kg was spilt; 0.5 kg given away.
  const edges = [
    { childId: 'creamed', parentId: 'seed', massG: 1_000 },
    { childId: 'creamed', parentId: 'honey', massG: 9_000 },
  ];
  const lots = [
    ledger('seed', { initialMassG: 3_000, remainingMassG: 1_500, usedMassG: 1_500 }),
    ledger('creamed', {
      inputMassG: 10_000,
      initialMassG: 9_000,
      remainingMassG: 4_400,
      pottedMassG: 4_500,
      lostMassG: 100,
    }),
  ];
  expect(Object.fromEntries(found('seed', lots, edges))).toEqual({
    seed: { inLotG: 1_500, pottedG: 0, withdrawnG: 500, lostG: 0 },
    creamed: { inLotG: 440, pottedG: 450, withdrawnG: 0, lostG: 110 },
  });
});

test('three lots of a third of a gram each make one gram, not none and not three', () => {
  const edges = ['a', 'b', 'c'].flatMap((childId) => [
    { childId, parentId: 'seed', massG: 1 },
    { childId, parentId: 'honey', massG: 2 },
  ]);
  const lots = [
    ledger('seed', { initialMassG: 3, usedMassG: 3 }),
    ...['a', 'b', 'c'].map((id) =>
      ledger(id, { inputMassG: 3, initialMassG: 3, remainingMassG: 1, lostMassG: 2 }),
    ),
  ];
  const places = [...found('seed', lots, edges).values()];
  expect(places.map(({ inLotG, lostG }) => inLotG + lostG)).toEqual([0, 1, 1, 1]);
});

/** Ledgers that go with the edges: what is not used is spread over the other masses, what does not fit into a lot was lost in making it. */
const randomLedgers = randomLots.chain(({ lotIds, edges }) =>
  fc.infiniteStream(fc.nat(1_000)).map((numbers) => {
    const next = () => Number(numbers.next().value);
    const whole = new Map<string, LotEdge>();
    for (const edge of edges) {
      const key = `${edge.childId} ${edge.parentId}`;
      whole.set(key, { ...edge, massG: edge.massG + (whole.get(key)?.massG ?? 0) });
    }
    const merged = [...whole.values()];
    const sumOf = (list: LotEdge[]) => list.reduce((sum, { massG }) => sum + massG, 0);
    const neededG = new Map<string, number>();
    const lots: LotMasses[] = lotIds.map((lotId) => {
      const usesG = sumOf(merged.filter(({ parentId }) => parentId === lotId));
      const [remainingMassG, pottedMassG, lostMassG, outG] = [next(), next(), next(), next()];
      const initialMassG = usesG + remainingMassG + pottedMassG + lostMassG + outG;
      neededG.set(lotId, initialMassG);
      return ledger(lotId, {
        initialMassG: initialMassG || 1,
        remainingMassG: initialMassG === 0 ? 1 : remainingMassG,
        usedMassG: usesG + outG,
        pottedMassG,
        lostMassG,
        inputMassG: sumOf(merged.filter(({ childId }) => childId === lotId)),
      });
    });
    return { lotIds, edges: merged, lots };
  }),
);

test('whatever was made of what, not a gram is lost or made', () => {
  fc.assert(
    fc.property(randomLedgers, ({ lotIds, edges, lots }) => {
      // A lot may not weigh more than what went into it.
      const isPossible = lots.every(
        ({ inputMassG, initialMassG }) => inputMassG === 0 || inputMassG >= initialMassG,
      );
      fc.pre(isPossible);
      for (const suspectId of lotIds) {
        const reached = new Set([suspectId, ...descendantShares(edges, suspectId).keys()]);
        const ours = lots.filter(({ lotId }) => reached.has(lotId));
        const inputs = edges.filter(({ childId }) => reached.has(childId));
        const places = [...found(suspectId, ours, inputs).values()];
        const sum = places
          .flatMap((place) => Object.values(place))
          .reduce((total, massG) => total + massG, 0);
        const { initialMassG } = lots.find(({ lotId }) => lotId === suspectId)!;
        expect(sum).toBe(initialMassG);
      }
    }),
    { numRuns: 200 },
  );
});

test('ledgers that tell something else than the inputs are no basis', () => {
  const lots = [ledger('seed', { initialMassG: 10, remainingMassG: 2 })];
  expect(() => found('seed', lots, [])).toThrow(RangeError);
});
