import { Decimal, Id, Instant, Whole } from '../platform/fields';

const temperature = { min: -40, max: 150 };

export class RecordedReadings {
  @Whole({ min: 0, max: 10_000, is: 'New on record.' })
  stored!: number;

  @Whole({ min: 0, max: 10_000, is: 'On record before, or sent more than once.' })
  alreadyKnown!: number;

  @Instant({ is: 'The earliest of those sent.' })
  firstAt!: string;

  @Instant({ is: 'The latest of those sent.' })
  lastAt!: string;
}

export class ReadingResponse {
  @Id()
  probeId!: string;

  @Instant({
    is: 'Gathered by everyMinutes: the start of those minutes, counted in UTC from 2000 on.',
  })
  at!: string;

  @Decimal({ ...temperature, decimals: 2, is: 'Gathered: the mean of the readings.' })
  temperatureC!: number;

  @Decimal({ ...temperature, decimals: 1, is: 'The coldest reading gathered.' })
  minC!: number;

  @Decimal({ ...temperature, decimals: 1, is: 'The warmest.' })
  maxC!: number;

  @Whole({ min: 1, max: 2_147_483_647, is: 'How many were gathered.' })
  readings!: number;
}

export interface ReadingRow {
  probeId: string;
  at: Date;
  meanDeciC: number;
  minDeciC: number;
  maxDeciC: number;
  readings: number;
}

export function toReadingResponse(row: ReadingRow): ReadingResponse {
  return {
    probeId: row.probeId,
    at: row.at.toISOString(),
    temperatureC: Math.round(row.meanDeciC * 10) / 100,
    minC: row.minDeciC / 10,
    maxC: row.maxDeciC / 10,
    readings: row.readings,
  };
}
