import { Decimal, SharePercent, TemperatureC } from '../platform/fields';

/** A reading, or a moisture: one of the two. */
export class MoistureRequest {
  @Decimal({ optional: true, min: 1, max: 2, decimals: 5, is: 'As read, uncorrected.' })
  refractiveIndex?: number;

  @SharePercent({
    optional: true,
    is: 'Known already: then the reading it would give is answered.',
  })
  moisturePercent?: number;

  @TemperatureC({
    optional: true,
    is: 'Of the honey on the prism; 20 unless given, also for readings corrected to 20 °C.',
  })
  temperatureC?: number;

  @TemperatureC({
    optional: true,
    is: 'For which conductivity and viscosity are asked; 20 unless given.',
  })
  propertiesAtC?: number;
}
