import { remember, useRemembered } from './remembered';

/** What a person chose for this browser: the units that they think in. */
export type Units = 'metric' | 'imperial';

const unitsKey = 'units';

export function chooseUnits(units: Units): void {
  remember(unitsKey, units);
}

export function useUnits(): Units {
  return useRemembered(unitsKey) === 'imperial' ? 'imperial' : 'metric';
}
