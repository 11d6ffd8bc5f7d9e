import { Decimal, Part, Text } from '../platform/fields';
import { Basis } from './basis.responses';
import { MoistureRequest } from './moisture.requests';

export class HoneyProperty {
  @Decimal({ min: 0, max: 100_000, decimals: 3, nullable: true, is: 'null: out of range.' })
  value!: number | null;

  @Text({ max: 200, nullable: true, is: 'Why there is no value, and for what there would be.' })
  outOfRange!: string | null;
}

export class MoistureResponse extends Basis {
  @Part(() => MoistureRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: MoistureRequest;

  @Decimal({ min: 10, max: 30, decimals: 2, is: 'Water, g per 100 g.' })
  moisturePercent!: number;

  @Decimal({ min: 1, max: 2, decimals: 5, is: 'As the instrument shows it at temperatureC.' })
  refractiveIndex!: number;

  @Decimal({ min: 1, max: 2, decimals: 5 })
  refractiveIndexAt20C!: number;

  @Part(() => HoneyProperty, { is: 'kg/m³ at 20 °C.' })
  densityAt20CKgPerM3!: HoneyProperty;

  @Part(() => HoneyProperty, { is: 'J/kg·K, of clear honey.' })
  specificHeatJPerKgK!: HoneyProperty;

  @Part(() => HoneyProperty, { is: 'W/m·K at propertiesAtC.' })
  conductivityWPerMK!: HoneyProperty;

  @Part(() => HoneyProperty, { is: 'Pa·s at propertiesAtC, of clear honey; a quarter either way.' })
  viscosityPaS!: HoneyProperty;
}
