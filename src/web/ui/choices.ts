import { useSyncExternalStore } from 'react';

/** What a person chose for this browser: the units that they think in. */
export type Units = 'metric' | 'imperial';

const unitsKey = 'units';
const listeners = new Set<() => void>();

export function chooseUnits(units: Units): void {
  localStorage.setItem(unitsKey, units);
  for (const listener of listeners) listener();
}

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function useUnits(): Units {
  return useSyncExternalStore(listen, () =>
    localStorage.getItem(unitsKey) === 'imperial' ? 'imperial' : 'metric',
  );
}
