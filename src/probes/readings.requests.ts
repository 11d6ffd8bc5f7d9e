import type { CsvForm } from '../platform/csv';
import { Decimal, Instant, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { PageQuery } from '../platform/paging';

const MOST_READINGS = 10_000;

export class ReadingRequest {
  @Instant()
  at!: Date;

  @Decimal({ min: -40, max: 150, decimals: 15, is: 'Kept to the tenth of a degree.' })
  temperatureC!: number;
}

export class ReadingsRequest {
  @Each(() => ReadingRequest, { min: 1, max: MOST_READINGS, is: 'In any order.' })
  readings!: ReadingRequest[];
}

/** The same as a file. */
export const readingsFile: CsvForm = {
  list: 'readings',
  columns: { at: 'text', temperatureC: 'number' },
  maxRows: MOST_READINGS,
};

export class ReadingsFileQuery {
  @Instant({ optional: true, is: 'Only readings from then on.' })
  from?: Date;

  @Instant({ optional: true, is: 'Only readings before.' })
  until?: Date;
}

export class ReadingsQuery extends PageQuery {
  @Instant({ optional: true, is: 'Only readings from then on.' })
  from?: Date;

  @Instant({ optional: true, is: 'Only readings before.' })
  until?: Date;

  @Whole({
    min: 1,
    max: 44_640,
    fromText: true,
    optional: true,
    is: 'Gather the readings of so many minutes into one item, with their mean, coldest and warmest; 240 shows a month on one page of 200.',
  })
  everyMinutes?: number;
}
