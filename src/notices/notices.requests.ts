import { YesNo } from '../platform/fields';
import { PageQuery } from '../platform/paging';

export class NoticesQuery extends PageQuery {
  @YesNo({ optional: true, fromText: true, is: 'true: only those that you have not read.' })
  unread?: boolean;
}
