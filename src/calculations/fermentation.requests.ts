import { Decimal, SharePercent, Whole } from '../platform/fields';

export class FermentationRequest {
  @SharePercent({ is: 'Water in the honey, g per 100 g.' })
  moisturePercent!: number;

  @Whole({ optional: true, min: 0, max: 100_000_000, is: 'Yeasts per gram, if counted.' })
  yeastPerG?: number;

  @Decimal({
    optional: true,
    min: 0,
    max: 100,
    decimals: 1,
    is: 'Crystals once it has set, g per 100 g; 15 unless given.',
  })
  crystalPercent?: number;
}
