import type { Grain } from '../honey/seed-grain';
import type { FloralParts } from './rank-seed';

const FROM_FINE_TO_COARSE: readonly Grain[] = ['fine', 'medium', 'coarse'];

/**
 * In which grain would a honey set by itself? In that of most of it; of equal parts the finer, for which seed must be finer, too. Null: none
 * of it is known. Source: common practice, no source.
 */
export function honeyGrain(
  parts: FloralParts,
  sources: readonly { readonly id: string; readonly grain: Grain }[],
): Grain | null {
  if (parts.size === 0) return null;
  const partOf = (grain: Grain) =>
    sources.reduce(
      (sum, source) => sum + (source.grain === grain ? (parts.get(source.id) ?? 0) : 0),
      0,
    );
  return FROM_FINE_TO_COARSE.reduce((most, grain) => (partOf(grain) > partOf(most) ? grain : most));
}
