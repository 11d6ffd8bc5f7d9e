import { Decimal, OneOf, Part } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Basis } from './basis.responses';
import { KeepingRequest } from './keeping.requests';

const percent = { min: 0, max: 100, decimals: 2 };
const milligrams = { min: 0, max: 1e10, decimals: 2 };
const hours = { min: 0, max: 1e9, decimals: 2 };
const limits = ['hmf', 'diastase', 'invertase'] as const;

export class HmfGain {
  @Decimal({ ...milligrams, is: 'By the slowest published rate.' })
  least!: number;

  @Decimal(milligrams)
  likely!: number;

  @Decimal({ ...milligrams, is: 'By the fastest published rate: what a limit must be safe for.' })
  most!: number;
}

export class HeatCost {
  @Part(() => HmfGain, { is: 'mg/kg' })
  hmfGainMgPerKg!: HmfGain;

  @Decimal({ ...percent, is: 'Of what there was.' })
  diastaseLeftPercent!: number;

  @Decimal({ ...percent, is: 'Of what there was.' })
  invertaseLeftPercent!: number;
}

export class HoneyAfter {
  @Decimal({ ...milligrams, is: 'By the fastest published rate.' })
  hmfMgPerKg!: number;

  @Decimal({ min: 0, max: 1000, decimals: 2 })
  diastaseNumber!: number;

  @Decimal(percent)
  invertaseLeftPercent!: number;
}

export class LimitHeadroom {
  @OneOf(limits, {
    is: 'hmf in mg/kg, diastase in Schade units, invertase in percent of the first.',
  })
  limit!: (typeof limits)[number];

  @OneOf(['law', 'club'])
  rule!: 'law' | 'club';

  @Decimal({ min: 0, max: 10_000, decimals: 2 })
  limitValue!: number;

  @Decimal({ min: -1e10, max: 10_000, decimals: 2, is: 'To the limit; below 0: beyond it.' })
  left!: number;

  @Decimal({ min: 0, max: 1e9, decimals: 0, is: 'At keptAtC, until the limit is reached.' })
  daysLeft!: number;
}

export class KeepingResponse extends Basis {
  @Part(() => KeepingRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: KeepingRequest;

  @Decimal(hours)
  hours!: number;

  @Decimal({ ...hours, is: 'Of these below 10 °C, counted as 10 °C: nothing is published.' })
  hoursBelowRange!: number;

  @Decimal({ ...hours, is: 'Of these between readings too far apart.' })
  gapHours!: number;

  @Part(() => HeatCost)
  cost!: HeatCost;

  @Part(() => HoneyAfter, { nullable: true, is: 'null: before is missing.' })
  after!: HoneyAfter | null;

  @Each(() => LimitHeadroom, { max: 6, is: 'The one that binds first; empty: before is missing.' })
  limits!: LimitHeadroom[];

  @Part(() => LimitHeadroom, { nullable: true, is: 'Which honey kept at keptAtC reaches first.' })
  binding!: LimitHeadroom | null;
}
