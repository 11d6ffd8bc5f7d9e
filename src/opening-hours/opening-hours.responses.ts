import { Day, Id, Text } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { DayHours } from './opening-hours.requests';

export class OpeningHoursResponse {
  @Text({ max: 50, is: 'The club’s: by which clock the hours are meant.' })
  timeZone!: string;

  @Each(() => DayHours, { max: 70, is: 'In the order of the week. None: open day and night.' })
  hours!: DayHours[];
}

export class ClosedDayResponse {
  @Id()
  id!: string;

  @Day()
  day!: string;

  @Text({ max: 200 })
  reason!: string;
}
