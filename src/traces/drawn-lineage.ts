import type { DrawnEdge, DrawnLot } from '../core/drawing/drawn-lot';
import { fractionToNumber } from '../core/lineage/rational';
import { ancestorShares, descendantShares, type LotShare } from '../core/lineage/shares';
import type { TracedLot } from '../lots/lineage-rows';
import type { WholeLineage } from '../lots/lineage.service';

/** The lots and lines of a lineage's drawing: ancestors and descendants, and what went from one into another of them. */
export function drawnLineage({ lotId, up, down }: WholeLineage): {
  lots: DrawnLot[];
  edges: DrawnEdge[];
} {
  const asked = up.lots.get(lotId);
  const lots = [
    ...related(ancestorShares(up.edges, lotId), up.lots, 'ancestor'),
    ...(asked === undefined ? [] : [drawn(asked, 'asked', { share: 1, nearest: 0, farthest: 0 })]),
    ...related(descendantShares(down.edges, lotId), down.lots, 'descendant'),
  ];
  const ids = new Set(lots.map(({ id }) => id));
  // Of descendants every input is known, also those that are not drawn.
  const all = [...up.edges, ...down.edges.filter(({ childId }) => !up.lots.has(childId))];
  const inputMassG = new Map<string, number>();
  for (const { childId, massG } of all) {
    inputMassG.set(childId, (inputMassG.get(childId) ?? 0) + massG);
  }
  const edges = all
    .filter(({ parentId, childId }) => ids.has(parentId) && ids.has(childId))
    .map((edge) => ({ ...edge, part: edge.massG / (inputMassG.get(edge.childId) ?? edge.massG) }));
  return { lots, edges };
}

function related(
  shares: ReadonlyMap<string, LotShare>,
  lots: ReadonlyMap<string, TracedLot>,
  relation: 'ancestor' | 'descendant',
): DrawnLot[] {
  return [...shares].flatMap(([id, { share, nearest, farthest }]) => {
    const lot = lots.get(id);
    const known = { share: fractionToNumber(share), nearest, farthest };
    return lot === undefined ? [] : [drawn(lot, relation, known)];
  });
}

function drawn(
  { id, code, kind, name, holderId, holderName, initialMassG }: TracedLot,
  relation: DrawnLot['relation'],
  known: { share: number; nearest: number; farthest: number },
): DrawnLot {
  return { id, code, kind, name, holderId, holderName, initialMassG, relation, ...known };
}
