import { Id, MassKg, Text } from '../platform/fields';

export class CorrectionRequest {
  @Id({
    is: 'The lot that was recorded as having gone into this one, or of which this one was lent, wrongly.',
  })
  wrongLotId!: string;

  @Id({
    nullable: true,
    is: 'The lot that really went in, of the same kind, or the lender’s that was really lent; null: none, so much less.',
  })
  rightLotId!: string | null;

  @MassKg({
    is: 'All of it, or the part that was recorded wrongly; of what was lent all, or how much less it was.',
  })
  massKg!: number;

  @Text({ max: 2000 })
  because!: string;
}
