import { Instant, OneOf } from '../platform/fields';
import { SomeOf } from '../platform/list-fields';
import { adjusters, groupings, type Adjuster, type Grouping } from './answer/question';

export const tables = ['groups', 'curve', 'adjustedGroups', 'adjustedCurve'] as const;
export type Table = (typeof tables)[number];

export class SettingTimesQuery {
  @Instant({ optional: true, is: 'Only batches seeded then or later.' })
  from?: Date;

  @Instant({ optional: true, is: 'Only batches seeded before.' })
  until?: Date;

  @OneOf(groupings, {
    optional: true,
    is: 'What to tell batches apart by; floralSource unless said.',
  })
  by?: Grouping;

  @SomeOf(adjusters, {
    min: 1,
    optional: true,
    fromText: true,
    is: 'What to adjust the groups for: words with commas between, or the parameter several times.',
  })
  adjust?: Adjuster[];
}

export class SettingTimesTableQuery extends SettingTimesQuery {
  @OneOf(tables, {
    optional: true,
    is: 'A row for each group (unless said), or for each point of its curve; of what was adjusted likewise.',
  })
  table?: Table;
}
