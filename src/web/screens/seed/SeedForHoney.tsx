import { Loaded } from '../../ui/Loaded';
import type { LotMass } from '../batches/LotMasses';
import type { Lot } from '../lots/lot-queries';
import { useFittingForWish } from './seed-queries';
import { SeedPicks } from './SeedPicks';

/** Which seed fits honey that is only planned yet: by its mass and what the bees worked. */
export function SeedForHoney({
  honey,
  lots,
  value,
  onChange,
}: {
  honey: readonly LotMass[];
  lots: readonly Lot[];
  value: LotMass[];
  onChange: (value: LotMass[]) => void;
}) {
  const fitting = useFittingForWish(wishOf(honey, lots));
  return (
    <Loaded query={fitting}>
      {(found) => <SeedPicks fitting={found} value={value} onChange={onChange} />}
    </Loaded>
  );
}

/** The honey as one: its mass, and the floral shares of all of it. What is not known of it stays unsaid. */
function wishOf(honey: readonly LotMass[], lots: readonly Lot[]) {
  const honeyMassKg = honey.reduce((sum, { massKg }) => sum + massKg, 0);
  const kgOf = new Map<string, number>();
  for (const { lotId, massKg } of honey) {
    for (const { floralSourceId, percent } of lots.find(({ id }) => id === lotId)?.floralShares ??
      []) {
      kgOf.set(floralSourceId, (kgOf.get(floralSourceId) ?? 0) + (massKg * percent) / 100);
    }
  }
  const floralShares = [...kgOf]
    // Rounded down: more than 100 percent together is refused.
    .map(([id, kg]) => [id, Math.floor((10_000 * kg) / honeyMassKg) / 100] as const)
    .filter(([, percent]) => percent > 0)
    .map(([id, percent]) => `${id}:${String(percent)}`)
    .join(',');
  return {
    honeyMassKg: Number(Math.max(0.001, honeyMassKg).toFixed(3)),
    ...(floralShares !== '' && { floralShares }),
  };
}
