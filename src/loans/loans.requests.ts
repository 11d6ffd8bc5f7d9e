import { Day, Id, Instant, MassKg, OneOf, Text, YesNo } from '../platform/fields';
import { PageQuery } from '../platform/paging';
import { LoanState } from '../platform/prisma-client/enums';

const dueOn = 'When as much is wanted back.';

export class LoanRequest {
  @Id({ is: 'The seed to lend.' })
  lotId!: string;

  @Id({ is: 'The member who gets it.' })
  borrowerId!: string;

  @MassKg()
  massKg!: number;

  @Instant()
  at!: Date;

  @Day({ optional: true, is: dueOn })
  dueOn?: string;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}

export class LoanAskRequest {
  @Id({ optional: true, is: 'Whom to ask; left out: anybody who has some.' })
  lenderId?: string;

  @Id({ optional: true, is: 'The seed that is wished for; it is its holder who is asked.' })
  lotId?: string;

  @MassKg()
  massKg!: number;

  @Day({ optional: true, is: 'By when as much will be given back.' })
  dueOn?: string;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}

export class LoanOfferRequest {
  @Id({ is: 'The seed to lend: one’s own.' })
  lotId!: string;

  @Id({ is: 'The member to whom it is offered.' })
  borrowerId!: string;

  @MassKg()
  massKg!: number;

  @Day({ optional: true, is: dueOn })
  dueOn?: string;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}

export class LoanHandoverRequest {
  @Id({ optional: true, is: 'The seed that is handed over; needed where none was named before.' })
  lotId?: string;

  @MassKg({ optional: true, is: 'What is handed over, if it is not as much as was wished for.' })
  massKg?: number;

  @Instant()
  at!: Date;

  @Day({ optional: true, is: dueOn })
  dueOn?: string;

  @Text({ min: 0, max: 2000, optional: true, is: 'In place of the note that was there.' })
  note?: string;
}

export class LoanChange {
  @Day({
    optional: true,
    nullable: true,
    is: 'When as much is wanted back, today or later; null: no day.',
  })
  dueOn?: string | null;
}

export class LoanReturnRequest {
  @Id({ is: 'The seed that is given back: the borrower’s own, of a later batch say.' })
  lotId!: string;

  @MassKg({ is: 'All that is owed, or a part of it.' })
  massKg!: number;

  @Instant()
  at!: Date;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}

export class LoanEndRequest {
  @Text({ min: 0, max: 2000, optional: true, is: 'Why, in words.' })
  note?: string;
}

export class LoansQuery extends PageQuery {
  @Id({ optional: true, is: 'Loans that this member gave or got, or would.' })
  memberId?: string;

  @Id({ optional: true, is: 'Loans that this lot was lent or given back from, or made by.' })
  lotId?: string;

  @OneOf(LoanState, { optional: true })
  state?: LoanState;

  @YesNo({ optional: true, fromText: true, is: 'true: only those owed past their day.' })
  overdue?: boolean;
}
