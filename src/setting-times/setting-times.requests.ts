import { Instant } from '../platform/fields';

export class SettingTimesQuery {
  @Instant({ optional: true, is: 'Only batches seeded then or later.' })
  from?: Date;

  @Instant({ optional: true, is: 'Only batches seeded before.' })
  until?: Date;
}
