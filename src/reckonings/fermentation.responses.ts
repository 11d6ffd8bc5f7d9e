import { Decimal, OneOf, Text, Whole } from '../platform/fields';

const percent = { min: 0, max: 100, decimals: 3 };
const fermentationClasses = ['safe', 'safe-below-count', 'always-in-danger'] as const;
type FermentationClass = (typeof fermentationClasses)[number];

export class FermentationReckoning {
  @OneOf(fermentationClasses, { is: 'Of the honey as it is, for a year.' })
  class!: FermentationClass;

  @Whole({ min: 1, max: 1000, nullable: true, is: 'Safe with fewer yeasts than this in a gram.' })
  safeBelowYeastPerG!: number | null;

  @Decimal({ ...percent, is: 'Crystals that the set honey is taken to hold.' })
  crystalPercent!: number;

  @Decimal({ ...percent, is: 'Water of the liquid between the crystals once it has set.' })
  liquidMoisturePercent!: number;

  @OneOf(fermentationClasses, { is: 'Of that liquid.' })
  classAfterSetting!: FermentationClass;

  @Whole({ min: 1, max: 1000, nullable: true })
  safeBelowYeastPerGAfterSetting!: number | null;

  @Text({ max: 500, nullable: true })
  warning!: string | null;

  @Text({ max: 500 })
  source!: string;
}
