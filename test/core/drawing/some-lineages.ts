import type { DrawnEdge, DrawnLot } from '../../../src/core/drawing/drawn-lot';
import { fractionToNumber } from '../../../src/core/lineage/rational';
import type { LotKind } from '../../../src/core/lineage/seed-line';
import { ancestorShares, descendantShares } from '../../../src/core/lineage/shares';
import { seededRandom } from '../../../src/core/random';

export interface SomeLineage {
  asked: string;
  kinds: Record<string, LotKind>;
  edges: [parent: string, child: string, massG: number][];
  name?: (id: string) => string;
}

/** The lots and lines that a lineage written down shortly is drawn from. */
export function drawnFrom({ asked, kinds, edges, name = (id) => `Lot ${id}` }: SomeLineage): {
  lots: DrawnLot[];
  edges: DrawnEdge[];
} {
  const plain = edges.map(([parentId, childId, massG]) => ({ parentId, childId, massG }));
  const [up, down] = [ancestorShares(plain, asked), descendantShares(plain, asked)];
  const lots = Object.entries(kinds).flatMap(([id, kind], index): DrawnLot[] => {
    const found = up.get(id) ?? down.get(id);
    if (found === undefined && id !== asked) return [];
    return [
      {
        id,
        code: String(index).padStart(7, 'K'),
        kind,
        name: name(id),
        holderId: 'ada',
        holderName: name('of Ada'),
        initialMassG: 20_000,
        relation: id === asked ? 'asked' : up.has(id) ? 'ancestor' : 'descendant',
        share: found === undefined ? 1 : fractionToNumber(found.share),
        nearest: found?.nearest ?? 0,
        farthest: found?.farthest ?? 0,
      },
    ];
  });
  const ids = new Set(lots.map(({ id }) => id));
  const wholeG = (child: string) =>
    plain.filter(({ childId }) => childId === child).reduce((sum, { massG }) => sum + massG, 0);
  return {
    lots,
    edges: plain
      .filter(({ parentId, childId }) => ids.has(parentId) && ids.has(childId))
      .map((edge) => ({ ...edge, part: edge.massG / wholeG(edge.childId) })),
  };
}

/** A club's lots: batches of honey and seed, `lines` seed lines that sometimes cross, and the seed put by last asked about. */
export function randomLineage(lines: number, lotCount: number): SomeLineage {
  const random = seededRandom(lines);
  const kinds: Record<string, LotKind> = {};
  const edges: SomeLineage['edges'] = [];
  const seeds = Array.from({ length: lines }, (_, line) => `first${line}`);
  for (const seed of seeds) kinds[seed] = 'seed';
  for (let batch = 0; Object.keys(kinds).length < lotCount; batch++) {
    const [creamed, next] = [`creamed${batch}`, `seed${batch}`];
    for (let pail = 0; pail <= random() * 2; pail++) {
      kinds[`honey${batch}.${pail}`] = 'honey';
      edges.push([`honey${batch}.${pail}`, creamed, 10_000 + Math.floor(random() * 9_000)]);
    }
    const line = Math.floor(random() * lines);
    const used = new Set([seeds[line]!, ...(random() < 0.3 ? [seeds[0]!] : [])]);
    for (const seed of used) edges.push([seed, creamed, 1_000 + Math.floor(random() * 900)]);
    edges.push([creamed, next, 2_500]);
    Object.assign(kinds, { [creamed]: 'creamed', [next]: 'seed' });
    seeds[line] = next;
  }
  return { asked: seeds[0]!, kinds, edges };
}
