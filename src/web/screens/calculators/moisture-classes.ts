import { text } from '../../text';
import { middlingColour, type ScaleClass } from './ClassScale';

const words = text.calculators;

/** Lochhead's classes (1933): below 17.1 % safe whatever the yeasts, above 20 % always in danger. */
export const moistureClasses: ScaleClass[] = [
  { from: 13, to: 17.1, colour: 'var(--good)', words: words.safeBelow },
  { from: 17.1, to: 20, colour: middlingColour, words: words.mayFerment },
  { from: 20, to: 25, colour: 'var(--late)', words: words.willFerment },
];
