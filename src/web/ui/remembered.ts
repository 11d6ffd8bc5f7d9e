import { useSyncExternalStore } from 'react';

const listeners = new Set<() => void>();

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Keeps a choice in this browser; whatever shows it is drawn again. */
export function remember(name: string, value: string): void {
  localStorage.setItem(name, value);
  for (const listener of listeners) listener();
}

/** The choice kept under that name; null: none. */
export function useRemembered(name: string): string | null {
  return useSyncExternalStore(listen, () => localStorage.getItem(name));
}
