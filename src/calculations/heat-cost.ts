import type { HeatDamage } from '../core/honey/keeping';
import type { HeatCost } from './keeping.responses';
import { rounded } from './reckoned';

export function toHeatCost({ hmfGainMgPerKg, diastaseLeft, invertaseLeft }: HeatDamage): HeatCost {
  const { least, likely, most } = hmfGainMgPerKg;
  return {
    hmfGainMgPerKg: {
      least: rounded(least, 2),
      likely: rounded(likely, 2),
      most: rounded(most, 2),
    },
    diastaseLeftPercent: rounded(100 * diastaseLeft, 2),
    invertaseLeftPercent: rounded(100 * invertaseLeft, 2),
  };
}
