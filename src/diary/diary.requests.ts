import { Instant } from '../platform/fields';

export const mostDays = 31;

export class DiaryQuery {
  @Instant()
  from!: Date;

  @Instant({ is: `At most ${String(mostDays)} days after from.` })
  to!: Date;
}
