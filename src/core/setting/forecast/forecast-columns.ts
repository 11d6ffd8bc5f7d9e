import { at } from '../at';
import type { Covariate } from '../regression/covariate';
import { buildDesign, type Design } from '../regression/design';
import type { TraitName } from './choose-covariates';
import type { BatchTraits, ForecastBatch, ForecastProfile } from './forecast-batch';
import { FORECAST_PRIORS } from './forecast-priors';

const SOURCE = 'floralSource';
const MIXED = 'mixed';
const NOT_KNOWN = 'not known';

/** Batches as a design, with log times about the day that is likely beforehand. */
export type ForecastColumns = {
  design: Design;
  /** What each column is believed to add, when sources spread so far about their mean. */
  deviationsAt: (betweenSources: number) => Float64Array;
};

/**
 * The design of a forecast: an intercept, an indicator for every floral source, then the traits used.
 * A batch of which a number is not known stands at the mean of the others.
 */
export function forecastColumns(
  batches: readonly ForecastBatch[],
  traits: readonly TraitName[],
): ForecastColumns {
  const sources = batches.map((batch) => sourceLevel(batch.floralSource));
  const covariates: Covariate[] = [
    { kind: 'factor', name: SOURCE, levels: [...new Set(sources)], values: sources },
    ...traits.map((trait) => covariateOf(batches, trait)),
  ];
  const observations = batches.map(({ observation }) => observation);
  const every = batches.map((_, row) => row);
  const design = buildDesign({ observations, covariates }, every, SOURCE);
  const centre = Math.log(FORECAST_PRIORS.medianDays);
  if (batches.length > 0) {
    const { place } = design.rows;
    for (let i = 0; i < place.length; i += 1) place[i] = at(place, i) + design.centre - centre;
  }
  const deviationsAt = (betweenSources: number) =>
    Float64Array.from(design.terms, (term, j) => {
      if (term.kind === 'intercept') return FORECAST_PRIORS.betweenClubs;
      if (term.kind === 'level' && term.covariate === SOURCE) return betweenSources;
      const perUnit = FORECAST_PRIORS.perTrait[term.covariate as TraitName];
      return perUnit * at(design.spread, j);
    });
  return { design: { ...design, centre }, deviationsAt };
}

/** Where the batch asked about stands in the columns, and whether its source is one of theirs. */
export function columnsOfProfile(
  { terms, location, spread }: Design,
  profile: ForecastProfile,
): { row: Float64Array; sourceIsKnown: boolean } {
  const source = profile.floralSource;
  let sourceIsKnown = false;
  const row = Float64Array.from(terms, (term, j) => {
    if (term.kind === 'intercept') return 1;
    if (term.kind === 'numeric') {
      const value = numberOf(profile, term.covariate as TraitName) ?? at(location, j);
      return (value - at(location, j)) / at(spread, j);
    }
    const level =
      term.covariate === SOURCE
        ? source.known
          ? sourceLevel(source.name)
          : undefined
        : (profile.seedGrain ?? NOT_KNOWN);
    if (level !== term.level) return 0;
    sourceIsKnown ||= term.covariate === SOURCE;
    return 1;
  });
  return { row, sourceIsKnown };
}

/** No name of a source may be taken for a mixture. */
function sourceLevel(name: string | null): string {
  return name === null ? MIXED : `source ${name}`;
}

function covariateOf(batches: readonly ForecastBatch[], trait: TraitName): Covariate {
  if (trait === 'seedGrain') {
    const values = batches.map((batch) => batch.seedGrain ?? NOT_KNOWN);
    return { kind: 'factor', name: trait, levels: [...new Set(values)], values };
  }
  const numbers = batches.map((batch) => numberOf(batch, trait));
  const known = numbers.filter((value) => value !== null);
  const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
  return { kind: 'numeric', name: trait, values: numbers.map((value) => value ?? mean) };
}

/**
 * A trait on the scale on which it is taken to act evenly: seed by its logarithm (twice as much does
 * the same wherever one starts), age by the logarithm of 1 + months (the first month counts most).
 */
function numberOf(traits: BatchTraits, trait: TraitName): number | null {
  const value = traits[trait];
  if (typeof value !== 'number') return null;
  if (trait === 'seedPercent') return Math.log(value);
  return trait === 'honeyAgeDays' ? Math.log1p(value / 30) : value;
}
