import type { KeyboardEvent } from 'react';

const steps: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowDown: 1,
  ArrowLeft: -1,
  ArrowUp: -1,
  Home: -Infinity,
  End: Infinity,
};

/**
 * Many things to choose in one drawing are one stop of the Tab key: of what `selector` finds in it the first has tabIndex 0 and the others
 * -1, and the arrow keys go from one to the next, Home and End to the first and the last.
 */
export function walkByArrows(event: KeyboardEvent, selector: string): void {
  const step = steps[event.key];
  const all = [...event.currentTarget.querySelectorAll<HTMLElement | SVGElement>(selector)];
  const here = all.findIndex((one) => one === document.activeElement);
  if (step === undefined || here === -1) return;
  event.preventDefault();
  const next = all[Math.min(all.length - 1, Math.max(0, here + step))];
  // By hand: drawing hundreds anew for a step would be slow.
  for (const one of all) one.tabIndex = one === next ? 0 : -1;
  next?.focus();
}
