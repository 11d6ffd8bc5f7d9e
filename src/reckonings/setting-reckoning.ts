import { grainForecast } from '../core/honey/seed-grain';
import { settingForecast } from '../core/honey/setting-readiness';
import { Grain } from '../platform/prisma-client/enums';
import { floralDefaultOf } from './floral-default';
import { NotKnown, rounded } from './reckoned';
import type { ReckoningRow } from './reckoning-row';
import type { GrainReckoning, SettingReckoning } from './setting.responses';

/** Whether the honey will set, from published compositions of what the bees worked. */
export function settingOf(
  { sources }: ReckoningRow,
  moisturePercent: number | null,
): SettingReckoning | NotKnown {
  if (sources.length === 0) return new NotKnown('The floral sources of the honey are not known.');
  const found = sources.map((source) => ({ source, published: floralDefaultOf(source.name) }));
  const unknown = found.filter(({ published }) => published === undefined);
  if (unknown.length > 0) {
    const names = unknown
      .slice(0, 10)
      .map(({ source }) => `“${source.name}”`)
      .join(', ');
    return new NotKnown(`No published composition goes by the name of ${names}.`);
  }
  const known = found.flatMap(({ source, published }) =>
    published === undefined ? [] : [{ source, published }],
  );
  const wholePercent = sources.reduce((sum, { sharePercent }) => sum + sharePercent, 0);
  const mean = (of: 'glucosePercent' | 'fructosePercent' | 'waterPercent') =>
    known.reduce((sum, one) => sum + one.source.sharePercent * one.published[of], 0) / wholePercent;
  const composition = {
    glucosePercent: mean('glucosePercent'),
    fructosePercent: mean('fructosePercent'),
    waterPercent: moisturePercent ?? mean('waterPercent'),
  };

  const forecast = settingForecast(composition);
  return {
    glucosePercent: rounded(composition.glucosePercent, 2),
    fructosePercent: rounded(composition.fructosePercent, 2),
    moisturePercent: rounded(composition.waterPercent, 2),
    moistureIsOwn: moisturePercent !== null,
    glucoseToWater: rounded(forecast.glucoseToWater, 3),
    willSet: forecast.willSet === 'in time' ? 'in-time' : forecast.willSet,
    readiness: forecast.readiness,
    measuresDisagree: forecast.measuresDisagree,
    sources: known.map(({ source, published }) => ({
      floralSourceId: source.floralSourceId,
      name: source.name,
      sharePercent: rounded(source.sharePercent, 2),
      clubSaysItSets: source.sets,
      plant: published.plant,
      source: published.source,
      status: published.status,
    })),
  };
}

const FROM_FINE_TO_COARSE: readonly Grain[] = [Grain.fine, Grain.medium, Grain.coarse];

/** Whether the seed is coarser than the honey, which takes the grain of most of its mass. */
export function grainOf({ seed, sources }: ReckoningRow): GrainReckoning | NotKnown {
  if (seed.length === 0) return new NotKnown('No seed has been stirred in yet.');
  const grains = seed.flatMap(({ grain }) => grain ?? []);
  if (grains.length < seed.length) return new NotKnown('The grain of the seed is not on record.');
  if (sources.length === 0) return new NotKnown('The floral sources of the honey are not known.');

  const share = (grain: Grain) =>
    sources.reduce((sum, one) => sum + (one.grain === grain ? one.sharePercent : 0), 0);
  const honeyGrain = FROM_FINE_TO_COARSE.reduce((most, grain) =>
    share(grain) > share(most) ? grain : most,
  );
  const seedGrain = FROM_FINE_TO_COARSE.reduce((coarsest, grain) =>
    grains.includes(grain) ? grain : coarsest,
  );
  const { expected, seedTooCoarse } = grainForecast(seedGrain, honeyGrain);
  return {
    seedGrain,
    honeyGrain,
    expectedGrain: expected,
    warning: seedTooCoarse
      ? `The seed is ${seedGrain} and the honey would set ${honeyGrain} by itself: the batch takes the grain of its seed.`
      : null,
    source: 'common practice, no source',
  };
}
