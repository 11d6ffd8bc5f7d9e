import { Decimal, OneOf, Part, Text, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Basis } from './basis.responses';
import { SettingRequest } from './setting.requests';

const readiness = ['fast', 'medium', 'slow'] as const;
const parts = ['glucose', 'fructose', 'moisture'] as const;
const outcomes = ['yes', 'in-time', 'doubtful'] as const;
const ratio = { min: 0, max: 10, decimals: 3 };

export class SettingIngredient {
  @OneOf(parts)
  what!: (typeof parts)[number];

  @Decimal({ min: 0, max: 100, decimals: 2 })
  percent!: number;

  @OneOf(['measured', 'default'])
  from!: 'measured' | 'default';

  @Text({ max: 300, nullable: true, is: 'Of a default.' })
  source!: string | null;

  @Text({ max: 100, nullable: true, is: 'How far a default may be trusted.' })
  status!: string | null;
}

export class SettingResponse extends Basis {
  @Part(() => SettingRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: SettingRequest;

  @Each(() => SettingIngredient, { max: 3, is: 'What was reckoned with, and where it is from.' })
  composition!: SettingIngredient[];

  @OneOf(readiness, { is: 'By glucose over water, the measure most sources agree on.' })
  readiness!: (typeof readiness)[number];

  @OneOf(outcomes, { is: 'doubtful: stays liquid long; not for creaming without a trial.' })
  willSet!: (typeof outcomes)[number];

  @Decimal(ratio)
  glucoseToWater!: number;

  @Decimal(ratio)
  fructoseToGlucose!: number;

  @Decimal({ min: -10, max: 10, decimals: 3, is: '(glucose − water) / fructose.' })
  surplusGlucose!: number;

  @OneOf(readiness, { is: 'By glucose alone.' })
  byGlucose!: (typeof readiness)[number];

  @OneOf(['fast', 'slow'], { nullable: true, is: 'null: between the thresholds.' })
  byFructoseToGlucose!: 'fast' | 'slow' | null;

  @YesNo({ is: 'Trust a trial more than this.' })
  measuresDisagree!: boolean;
}
