import type { HeatDamage } from '../core/honey/keeping';
import { Decimal, OneOf, Part } from '../platform/fields';
import type { HeatCost } from './heat-cost';
import { rounded } from './reckoned';

const percent = { min: 0, max: 100, decimals: 2 };
const milligrams = { min: 0, max: 1e9, decimals: 3 };

export class HmfGained {
  @Decimal({ ...milligrams, is: 'At the slowest pace published, mg/kg.' })
  leastMgPerKg!: number;

  @Decimal({ ...milligrams, is: 'At a pace that lies within every published band.' })
  likelyMgPerKg!: number;

  @Decimal({ ...milligrams, is: 'At the fastest pace published.' })
  mostMgPerKg!: number;
}

export class HeatLoss {
  @Decimal({ ...percent, is: 'Of the diastase that there was before.' })
  diastaseLeftPercent!: number;

  @Part(() => HmfGained)
  hmfGain!: HmfGained;
}

export class HeatReckoning {
  @OneOf(['readings', 'steps'], {
    is: 'readings: what a probe in the honey logged, by quarters of an hour. steps: the temperatures of the steps loaded, cleared and cooled, where no probe logged nine tenths of that time.',
  })
  basis!: 'readings' | 'steps';

  @Decimal({
    min: 0,
    max: 1e6,
    decimals: 2,
    is: 'From the first to the last of the steps loaded, cleared and cooled; of those with a temperature, where the basis is steps.',
  })
  hours!: number;

  @Decimal({ min: 0, max: 1e6, decimals: 2, is: 'Of these below 10 °C, and counted as 10 °C.' })
  hoursBelowRange!: number;

  @Part(() => HeatLoss, {
    is: 'An estimate: as if the temperature had changed evenly from one reading or step to the next.',
  })
  evenly!: HeatLoss;

  @Part(() => HeatLoss, {
    is: 'The cautious estimate: as if the warmer temperature of each two readings or steps had held all the time between them.',
  })
  atTheWarmer!: HeatLoss;
}

export function toHmfGained({ least, likely, most }: HeatDamage['hmfGainMgPerKg']): HmfGained {
  return {
    leastMgPerKg: rounded(least, 3),
    likelyMgPerKg: rounded(likely, 3),
    mostMgPerKg: rounded(most, 3),
  };
}

export function toHeatReckoning({ basis, hours, evenly, atTheWarmer }: HeatCost): HeatReckoning {
  return {
    basis,
    hours: rounded(hours, 2),
    hoursBelowRange: rounded(evenly.hoursBelowRange, 2),
    evenly: toHeatLoss(evenly),
    atTheWarmer: toHeatLoss(atTheWarmer),
  };
}

export function toHeatLoss({ diastaseLeft, hmfGainMgPerKg }: HeatDamage): HeatLoss {
  return {
    diastaseLeftPercent: rounded(100 * diastaseLeft, 2),
    hmfGain: toHmfGained(hmfGainMgPerKg),
  };
}
