import fc from 'fast-check';
import type { LotEdge } from '../../../src/core/lineage/lot-graph';

/** Small graphs of lots 0, 1, 2, ...: each made from up to four earlier ones, or brought in. */
export const randomLots: fc.Arbitrary<{ lotIds: string[]; edges: LotEdge[] }> = fc
  .integer({ min: 2, max: 11 })
  .chain((count) =>
    fc.tuple(
      ...Array.from({ length: count }, (_, child) =>
        fc.array(
          fc.record({
            childId: fc.constant(String(child)),
            parentId: fc.nat(Math.max(child - 1, 0)).map(String),
            massG: fc.oneof(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 30_000 })),
          }),
          { maxLength: child === 0 ? 0 : 4 },
        ),
      ),
    ),
  )
  .chain((inputs) => {
    const lotIds = inputs.map((_, index) => String(index));
    const edges = inputs.flat();
    return fc
      .shuffledSubarray(edges, { minLength: edges.length })
      .map((shuffled) => ({ lotIds, edges: shuffled }));
  });
