import { Decimal, Id, Text, Whole } from '../platform/fields';

export class FairShareResponse {
  @Id()
  memberId!: string;

  @Text({ max: 80 })
  memberName!: string;

  @Decimal({
    min: 0,
    max: 10_000_000,
    decimals: 2,
    is: 'Places times days of the member’s bookings that are still ahead.',
  })
  bookedPlaceDays!: number;

  @Whole({ min: 1, max: 100_000, nullable: true, is: 'At most so many. Null: no limit.' })
  mostPlaceDays!: number | null;
}
