/** What setting times may be told apart by. */
export const groupings = [
  'floralSource',
  'season',
  'temperatureBand',
  'seedLine',
  'station',
] as const;
export type Grouping = (typeof groupings)[number];

/** What setting times may be adjusted for. */
export const adjusters = [
  'temperature',
  'season',
  'floralSource',
  'seedFraction',
  'seedGrain',
  'moisture',
  'honeyAge',
] as const;
export type Adjuster = (typeof adjusters)[number];

/** What is asked of a set of batches. */
export interface Question {
  by: Grouping;
  /** In the order of `adjusters`, each once. */
  adjust: readonly Adjuster[];
}

/** The adjuster that a grouping stands for already. */
export const sameAs: Partial<Record<Grouping, Adjuster>> = {
  floralSource: 'floralSource',
  season: 'season',
  temperatureBand: 'temperature',
};

/** Whether the setting temperature matters to the answer. */
export function asksTemperature({ by, adjust }: Question): boolean {
  return by === 'temperatureBand' || adjust.includes('temperature');
}
