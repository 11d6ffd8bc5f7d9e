import { Decimal, Id, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { LotKind } from '../platform/prisma-client/enums';
import { HeatReckoning, HmfGained } from './heat.responses';

const percent = { min: 0, max: 100, decimals: 2 };
const count = { min: 0, max: 1_000_000 };

export class LineHeat {
  @Decimal({ ...percent, is: 'Of the whole lot, by mass.' })
  meanDiastaseLeftPercent!: number;

  @Decimal({
    ...percent,
    is: 'Of the part of the lot that went through the most, along one line of lots.',
  })
  worstDiastaseLeftPercent!: number;

  @Part(() => HmfGained, { is: 'Of the whole lot, by mass.' })
  meanHmfGain!: HmfGained;

  @Whole({ ...count, is: 'Batches in the lot whose steps tell what warming cost.' })
  batchesCounted!: number;

  @Whole({ ...count, is: 'Batches in the lot whose steps do not; they are counted as no loss.' })
  batchesNotKnown!: number;

  @Decimal({ ...percent, is: 'The share of the lot that went through one of those.' })
  notKnownPercent!: number;
}

export class HeatNotKnown {
  @OneOf(['ownBatch', 'line'])
  part!: 'ownBatch' | 'line';

  @Text({ max: 500 })
  reason!: string;
}

export class HeatHistoryResponse {
  @Id()
  lotId!: string;

  @OneOf(LotKind)
  kind!: LotKind;

  @Id({ nullable: true, is: 'The batch that made the lot, or put it by.' })
  batchId!: string | null;

  @Part(() => HeatReckoning, { nullable: true, is: 'What warming cost the honey of that batch.' })
  ownBatch!: HeatReckoning | null;

  @Part(() => LineHeat, {
    nullable: true,
    is: 'The same over that batch and every batch before it that is in the lot, weighted by its share.',
  })
  line!: LineHeat | null;

  @Each(() => HeatNotKnown, { max: 2, is: 'Why a part is null.' })
  notReckoned!: HeatNotKnown[];

  @Text({ max: 1000, is: 'What is counted, and what is not.' })
  method!: string;
}
