import { Decimal, Part, Text } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Basis } from './basis.responses';
import { CoolingRequest } from './cooling.requests';

const celsius = { min: -60, max: 130, decimals: 2 };
const hours = { min: 0, max: 1000, decimals: 2 };

export class CoolingPoint {
  @Decimal(hours)
  atHours!: number;

  @Decimal(celsius)
  warmestC!: number;

  @Decimal({ ...celsius, is: 'Of all the honey.' })
  meanC!: number;

  @Decimal({ ...celsius, is: 'Mean over side, top and bottom.' })
  surfaceC!: number;
}

export class CooledPails {
  @Decimal({
    ...hours,
    nullable: true,
    is: 'Warmest point down to belowC; null: not within hours.',
  })
  belowAtHours!: number | null;

  @Each(() => CoolingPoint, { max: 100 })
  curve!: CoolingPoint[];
}

export class CoolingResponse extends Basis {
  @Part(() => CoolingRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: CoolingRequest;

  @Each(() => CooledPails, { max: 6, is: 'In the order of the pails asked for.' })
  groups!: CooledPails[];

  @Decimal({ ...hours, nullable: true, is: 'The last of them; null: not within hours.' })
  allBelowAtHours!: number | null;

  @Text({ max: 500, is: 'How far the film coefficient may be trusted.' })
  filmNote!: string;
}
