import { Id, Text, YesNo } from '../platform/fields';
import { PageQuery } from '../platform/paging';

export class HoldRequest {
  @Text({ max: 2000, is: 'What is suspected.' })
  reason!: string;

  @Text({ min: 0, max: 2000, optional: true, is: 'What was seen, smelt or measured.' })
  evidence?: string;
}

export class HoldReleaseRequest {
  @Text({ max: 2000 })
  because!: string;

  @Text({ max: 2000, is: 'What shows that it is good: a test, a tasting, a mix-up found out.' })
  evidence!: string;
}

export class BranchReleaseRequest extends HoldReleaseRequest {
  @Id({
    is: 'A lot that the hold reaches. It is free, and so is what was made of it and of nothing else that the hold reaches.',
  })
  lotId!: string;
}

export class HoldsQuery extends PageQuery {
  @YesNo({ optional: true, fromText: true, is: 'true: only open ones; false: only released ones.' })
  open?: boolean;
}
