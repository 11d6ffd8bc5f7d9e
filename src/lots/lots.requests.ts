import {
  Day,
  Decimal,
  Id,
  Instant,
  MassKg,
  OneOf,
  Part,
  SharePercent,
  TemperatureC,
  Text,
  YesNo,
} from '../platform/fields';
import { Each } from '../platform/list-fields';
import { PageQuery } from '../platform/paging';
import { Grain, LotKind } from '../platform/prisma-client/enums';

export class FloralShareRequest {
  @Id()
  floralSourceId!: string;

  @SharePercent()
  percent!: number;
}

export class OriginShareRequest {
  @Text({
    min: 2,
    max: 2,
    pattern: /^[A-Z]{2}$/,
    example: 'AT',
    is: 'A country, as ISO 3166-1 alpha-2 writes it.',
  })
  countryCode!: string;

  @SharePercent()
  percent!: number;
}

export class RefractometerRequest {
  @Decimal({ min: 1.4, max: 1.6, decimals: 5, is: 'As read, not corrected.' })
  refractiveIndex!: number;

  @TemperatureC({ is: 'Of the honey on the prism.' })
  temperatureC!: number;
}

export class BringInRequest {
  @OneOf(['honey', 'seed'], {
    is: 'Honey as it comes from the bees, or seed that was bought. Creamed honey is made by a batch.',
  })
  kind!: 'honey' | 'seed';

  @Text({ max: 120 })
  name!: string;

  @MassKg()
  massKg!: number;

  @Each(() => FloralShareRequest, { min: 1, max: 20, is: 'They add up to 100 percent.' })
  floralShares!: FloralShareRequest[];

  @Each(() => OriginShareRequest, { min: 1, max: 20, is: 'They add up to 100 percent.' })
  originShares!: OriginShareRequest[];

  @Text({ max: 200, is: 'Where it comes from: an apiary, or who sold it.' })
  origin!: string;

  @Day({ optional: true })
  extractedOn?: string;

  @Decimal({
    min: 10,
    max: 30,
    decimals: 2,
    optional: true,
    is: 'Water in percent of mass, when it is known already. For honey this or refractometer is needed.',
  })
  moisturePercent?: number;

  @Part(() => RefractometerRequest, {
    optional: true,
    is: 'A reading, from which the moisture is reckoned.',
  })
  refractometer?: RefractometerRequest;

  @OneOf(Grain, { optional: true, is: 'Of seed only.' })
  grain?: Grain;

  @Id({ optional: true, is: 'The caller, unless a steward names somebody else.' })
  holderId?: string;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}

export class LotChangeRequest {
  @Text({ max: 120, optional: true })
  name?: string;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;

  @OneOf(Grain, { optional: true, nullable: true, is: 'Of seed only.' })
  grain?: Grain | null;
}

export class LotsQuery extends PageQuery {
  @OneOf(LotKind, { optional: true })
  kind?: LotKind;

  @Id({ optional: true })
  holderId?: string;

  @YesNo({ optional: true, fromText: true, is: 'true: only lots of which something is left.' })
  withMass?: boolean;

  @Text({
    max: 40,
    optional: true,
    example: 'k7m r486',
    is: 'The lot of this code. Case, spaces and dashes do not matter.',
  })
  code?: string;
}

export class WithdrawalRequest {
  @OneOf(['lost', 'used', 'potted'], { is: 'What became of it.' })
  kind!: 'lost' | 'used' | 'potted';

  @MassKg()
  massKg!: number;

  @Instant()
  at!: Date;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}
