export const lineageText = {
  title: 'Walk along its lineage',
  how: 'From left to right: what went in, what was made of it. Lines are as wide as their part. Arrow keys go from lot to lot, Enter opens one; on a phone tap one, or push the drawing aside.',
  drawing: (name: string) => `Lineage of ${name}`,
  kinds: { honey: 'honey', seed: 'seed', creamed: 'creamed honey' },
  legend: 'What the signs mean',
  isAsked: 'this lot',
  ancestor: (share: string) => `${share} of this lot`,
  descendant: (share: string) => `${share} of it is this lot`,
  onHold: 'on hold',
  left: (mass: string) => `${mass} left`,
  usedUp: 'used up',
  heldBy: (name: string) => `held by ${name}`,
  alone: 'It was brought in, and nothing was made of it yet.',
  more: (count: number) => `Show more: ${String(count)} are farther away`,
  fartherYet: (count: number) =>
    `${String(count)} more are farther away: the tables below have all of them.`,
  wrong: {
    title: 'Did something else go in?',
    intro:
      'The lids were swapped, the scales misread: nothing on record is changed, a correction is put beside it. Traces, holds and recalls follow it.',
    wrongLot: 'Recorded wrongly',
    recorded: (name: string, mass: string) => `${name}, ${mass}`,
    rightLot: 'What really went in',
    nothing: 'Nothing else: so much less went in',
    mass: (unit: string) => `How much of it, ${unit}`,
    because: 'How you know',
    correct: 'Put it right',
    done: 'Put right.',
    list: 'Corrections',
    sentence: (mass: string, wrong: string, right: string) =>
      `${mass} of “${wrong}” were “${right}”`,
    less: (mass: string, wrong: string) => `${mass} less of “${wrong}” went in`,
    by: (name: string, day: string) => `${name}, ${day}`,
    first: (mass: string, name: string, day: string) =>
      `First recorded: ${mass} by ${name}, ${day}`,
  },
};
