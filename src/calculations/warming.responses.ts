import { Decimal, OneOf, Part, Text } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Basis } from './basis.responses';
import { HeatCost } from './keeping.responses';
import { WarmingRequest } from './warming.requests';

const celsius = { min: -60, max: 130, decimals: 2 };
const hours = { min: 0, max: 1000, decimals: 2 };
const kWh = { min: -100_000, max: 100_000, decimals: 3 };

export class PailPoint {
  @Decimal(hours)
  atHours!: number;

  @Decimal({ ...celsius, is: 'On the axis at mid height.' })
  coreC!: number;

  @Decimal({ ...celsius, is: 'Mean over side, top and bottom.' })
  surfaceC!: number;

  @Decimal({ ...celsius, is: 'Of all the honey.' })
  meanC!: number;

  @Decimal({ min: 0, max: 100, decimals: 1, is: 'Of the crystals there were.' })
  meltedPercent!: number;
}

export class HeatCostAcross {
  @Part(() => HeatCost, { is: 'At the rim. Never understated.' })
  worst!: HeatCost;

  @Part(() => HeatCost, { is: 'Of the pail stirred together.' })
  mean!: HeatCost;

  @Part(() => HeatCost)
  best!: HeatCost;
}

export class WarmedPails {
  @Decimal({ ...hours, nullable: true, is: 'null: not within hours.' })
  clearAtHours!: number | null;

  @Each(() => PailPoint, { max: 100 })
  curve!: PailPoint[];

  @Part(() => HeatCostAcross, { is: 'Of all the hours in the warmth, cooling not included.' })
  cost!: HeatCostAcross;
}

export class AirPoint {
  @Decimal(hours)
  atHours!: number;

  @Decimal(celsius)
  airC!: number;

  @Decimal({ min: -1e9, max: 1e9, decimals: 0, is: 'Mean power since the point before.' })
  heaterW!: number;
}

export class WarmingEnergy {
  @Decimal({ ...kWh, is: 'In air that is held: what the pails took.' })
  heaterKWh!: number;

  @Decimal(kWh)
  pailsKWh!: number;

  @Decimal({ ...kWh, nullable: true, is: 'To the room; null: not known for air that is held.' })
  lostKWh!: number | null;
}

export class ClearingTemperature {
  @Decimal({ ...celsius, is: 'Of the thermostat, or of the air held.' })
  setC!: number;

  @Decimal({ ...hours, is: 'When the last pail is clear.' })
  clearAtHours!: number;

  @Decimal(kWh)
  heaterKWh!: number;

  @Part(() => HeatCostAcross, { is: 'Of the pails that lose most; two days of cooling included.' })
  cost!: HeatCostAcross;
}

export class Clearing {
  @OneOf(['found', 'too-late', 'clear-already'], {
    is: 'too-late: even hottestC takes longer than there is time.',
  })
  outcome!: 'found' | 'too-late' | 'clear-already';

  @Part(() => ClearingTemperature, { nullable: true, is: 'Leaves the most diastase.' })
  gentlest!: ClearingTemperature | null;

  @Part(() => ClearingTemperature, { nullable: true, is: 'At hottestC.' })
  soonest!: ClearingTemperature | null;
}

export class WarmingResponse extends Basis {
  @Part(() => WarmingRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: WarmingRequest;

  @Each(() => WarmedPails, { max: 6, is: 'In the order of the pails asked for.' })
  groups!: WarmedPails[];

  @Decimal({ ...hours, nullable: true, is: 'The last of them; null: not within hours.' })
  allClearAtHours!: number | null;

  @Each(() => AirPoint, { max: 100 })
  air!: AirPoint[];

  @Part(() => WarmingEnergy)
  energy!: WarmingEnergy;

  @Part(() => Clearing, { nullable: true, is: 'null: deadlineHours was not given.' })
  byDeadline!: Clearing | null;

  @Text({ max: 500, is: 'How far the film coefficient may be trusted.' })
  filmNote!: string;
}
