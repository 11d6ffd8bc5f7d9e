export type LoanState =
  'asked' | 'offered' | 'accepted' | 'declined' | 'withdrawn' | 'lent' | 'returned' | 'forgiven';

export type LoanDeed = 'accept' | 'decline' | 'withdraw' | 'hand-over' | 'return' | 'forgive';

const deeds: Record<LoanState, readonly LoanDeed[]> = {
  asked: ['accept', 'decline', 'withdraw'],
  offered: ['accept', 'decline', 'withdraw'],
  accepted: ['hand-over', 'withdraw'],
  declined: [],
  withdrawn: [],
  lent: ['return', 'forgive'],
  returned: [],
  forgiven: [],
};

/** What may be done next with a loan: asked or offered, accepted, handed over, given back or forgiven. Nothing: it is over. */
export function deedsOf(state: LoanState): readonly LoanDeed[] {
  return deeds[state];
}
