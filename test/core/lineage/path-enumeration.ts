import type { LotEdge } from '../../../src/core/lineage/lot-graph';
import { fractionToString, type Fraction } from '../../../src/core/lineage/rational';

/**
 * The independent calculation: walk every single path upwards and multiply its shares. Far too slow for
 * a club, but with nothing in common with the accumulation it checks.
 */
export type PathsTo = { paths: number; share: string; nearest: number; farthest: number };

export function enumeratePaths(edges: readonly LotEdge[], lotId: string): Map<string, PathsTo> {
  const found = new Map<string, { n: bigint; d: bigint; paths: number; steps: number[] }>();
  const walk = (id: string, n: bigint, d: bigint, steps: number): void => {
    const inputs = edges.filter((edge) => edge.childId === id);
    const total = inputs.reduce((sum, edge) => sum + edge.massG, 0);
    for (const { parentId, massG } of inputs) {
      const n2 = n * BigInt(massG);
      const d2 = d * BigInt(total);
      const old = found.get(parentId) ?? { n: 0n, d: 1n, paths: 0, steps: [] };
      found.set(parentId, {
        n: old.n * d2 + n2 * old.d,
        d: old.d * d2,
        paths: old.paths + 1,
        steps: [...old.steps, steps + 1],
      });
      walk(parentId, n2, d2, steps + 1);
    }
  };
  walk(lotId, 1n, 1n, 0);
  return new Map(
    [...found].map(([id, { n, d, paths, steps }]) => [
      id,
      { paths, share: lowest(n, d), nearest: Math.min(...steps), farthest: Math.max(...steps) },
    ]),
  );
}

function lowest(n: bigint, d: bigint): string {
  const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? a : gcd(b, a % b));
  const common = gcd(n, d);
  return `${n / common}/${d / common}`;
}

/** Every exact fraction of a map, written out. */
export function written(shares: ReadonlyMap<string, Fraction>): Record<string, string> {
  return Object.fromEntries([...shares].map(([id, share]) => [id, fractionToString(share)]));
}
