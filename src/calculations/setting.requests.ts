import { FLORAL_DEFAULTS } from '../core/honey/floral-defaults';
import { OneOf, SharePercent } from '../platform/fields';

const plants = FLORAL_DEFAULTS.map(({ plant }) => plant);

/** What was measured; what was not is taken from the means of the plant. */
export class SettingRequest {
  @OneOf(plants, { optional: true, is: '“any honey” unless given.' })
  plant?: string;

  @SharePercent({ optional: true, is: 'Measured, g per 100 g.' })
  glucosePercent?: number;

  @SharePercent({ optional: true, is: 'Measured, g per 100 g.' })
  fructosePercent?: number;

  @SharePercent({ optional: true, is: 'Measured, g per 100 g.' })
  moisturePercent?: number;
}
