import { Day, Id, Instant, MassKg, Text } from '../platform/fields';
import { PageQuery } from '../platform/paging';

export class LoanRequest {
  @Id({ is: 'The seed to lend.' })
  lotId!: string;

  @Id({ is: 'The member who gets it.' })
  borrowerId!: string;

  @MassKg()
  massKg!: number;

  @Instant()
  at!: Date;

  @Day({ optional: true, is: 'When as much is wanted back.' })
  dueOn?: string;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}

export class LoansQuery extends PageQuery {
  @Id({ optional: true, is: 'Loans that this member gave or got.' })
  memberId?: string;
}
