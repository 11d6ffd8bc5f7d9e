import { Text } from '../platform/fields';
import { TimeZone } from './time-zone';

export class ClubRequest {
  @Text({ max: 100 })
  name!: string;

  @TimeZone()
  timeZone!: string;
}

export class ClubChange {
  @Text({ max: 100, optional: true })
  name?: string;

  @TimeZone({ optional: true })
  timeZone?: string;
}
