export const holdsText = {
  title: 'Suspect?',
  onHold: 'On hold: not to be used, lent, potted or given away.',
  place: 'Put a hold on it',
  intro:
    'A hold reaches everything made of this lot, at once. Nothing that stands and sets is lost.',
  reason: 'What is wrong',
  evidence: 'What speaks for it',
  because: 'Why it is all right',
  release: 'Release the hold',
  releaseBranch: 'Release this branch alone',
  placedBy: (name: string, day: string) => `${name}, ${day}`,
  from: (lot: string) => `It comes from “${lot}”.`,
  recall: 'Where did it go? Report to print',
  recallCsv: 'The report as CSV',
  drill: 'Practise a trace, telling nobody',
  drilled: (ms: number, lots: number, holders: number, kg: string) =>
    `${String(lots)} lots with ${String(holders)} holders, ${kg} in all, found in ${String(ms)} ms.`,
};
