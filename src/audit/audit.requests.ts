import { Id } from '../platform/fields';
import { PageQuery } from '../platform/paging';

export class AuditQuery extends PageQuery {
  @Id({ optional: true, is: 'Only what was done to this.' })
  subjectId?: string;
}
