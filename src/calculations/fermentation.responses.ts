import { Decimal, OneOf, Part, Text, Whole, YesNo } from '../platform/fields';
import { Basis } from './basis.responses';
import { FermentationRequest } from './fermentation.requests';

const classes = ['safe', 'safe-below-count', 'always-in-danger'] as const;
const risks = ['safe', 'count-unknown', 'in-danger'] as const;

export class FermentationState {
  @Decimal({ min: 0, max: 100, decimals: 2, is: 'Of the liquid that could ferment.' })
  moisturePercent!: number;

  @OneOf(classes, { is: 'What its moisture says.' })
  class!: (typeof classes)[number];

  @Whole({ min: 1, max: 1000, nullable: true, is: 'Safe with fewer yeasts per gram than this.' })
  safeBelowYeastPerG!: number | null;

  @OneOf(risks, { is: 'What moisture and count say together.' })
  risk!: (typeof risks)[number];
}

export class FermentationResponse extends Basis {
  @Part(() => FermentationRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: FermentationRequest;

  @Part(() => FermentationState, { is: 'The honey as it is, evenly moist.' })
  before!: FermentationState;

  @Part(() => FermentationState, { is: 'The liquid between the crystals once it has set.' })
  afterSetting!: FermentationState;

  @YesNo({ is: 'Setting makes it worse.' })
  worsensOnSetting!: boolean;

  @Text({ max: 300, nullable: true, is: 'null: nothing to warn of.' })
  warning!: string | null;
}
