import type { MakeupPart } from '../core/lineage/composition';
import type { StatedParts } from './lineage-rows';

/** Stands for what a founding lot does not tell of itself. */
export const UNKNOWN = '';

/** What founding lots are stated to consist of, in the form in which the core reckons with it; what they do not tell is `UNKNOWN`. */
export function makeups(stated: readonly StatedParts[], by: 'floral' | 'origin') {
  return new Map(stated.map((lot) => [lot.lotId, completed(lot[by])]));
}

function completed(parts: readonly { key: string; centiPercent: number }[]): MakeupPart[] {
  const known = parts.map(({ key, centiPercent }) => ({ key, hundredthsOfPercent: centiPercent }));
  const sum = known.reduce((total, part) => total + part.hundredthsOfPercent, 0);
  return sum === 10_000 ? known : [...known, { key: UNKNOWN, hundredthsOfPercent: 10_000 - sum }];
}
