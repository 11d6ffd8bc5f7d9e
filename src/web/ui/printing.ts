import { useSyncExternalStore } from 'react';
import { flushSync } from 'react-dom';

/** Whether the page is being printed: then lists are whole. It is so before the browser looks at the page. */
export function useIsPrinting(): boolean {
  return useSyncExternalStore(listen, () => isPrinting);
}

const paper = window.matchMedia('print');
const listeners = new Set<() => void>();
let isPrinting = paper.matches;

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function change(to: boolean): void {
  if (isPrinting === to) return;
  isPrinting = to;
  flushSync(() => {
    for (const listener of listeners) listener();
  });
}

window.addEventListener('beforeprint', () => change(true));
window.addEventListener('afterprint', () => change(false));
paper.addEventListener('change', ({ matches }) => change(matches));
