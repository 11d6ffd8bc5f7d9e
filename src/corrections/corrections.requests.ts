import { Id, MassKg, Text } from '../platform/fields';

export class CorrectionRequest {
  @Id({ is: 'The lot that was recorded as having gone into this one, wrongly.' })
  wrongLotId!: string;

  @Id({
    nullable: true,
    is: 'The lot that really went in, of the same kind; null: none did, so much less went in.',
  })
  rightLotId!: string | null;

  @MassKg({ is: 'All of it, or the part that was recorded wrongly.' })
  massKg!: number;

  @Text({ max: 2000 })
  because!: string;
}
