import {
  NO_TRAITS,
  type BatchTraits,
  type ForecastBatch,
  type ForecastProfile,
} from '../../../../src/core/setting/forecast/forecast-batch';
import {
  beliefFromModel,
  fitForecastModel,
} from '../../../../src/core/setting/forecast/forecast-model';
import { forecastSetting } from '../../../../src/core/setting/forecast/forecast-setting';
import { predictiveOf } from '../../../../src/core/setting/forecast/predictive';
import { fitSupposing } from '../../../../src/core/setting/forecast/supposed-fit';
import { normalQuantile } from '../../../../src/core/setting/numerics/normal';
import { buildDesign } from '../../../../src/core/setting/regression/design';
import { lognormalLaw } from '../../../../src/core/setting/regression/lognormal-law';
import { observationsOf, resultsOfKind } from '../reference-cases';

const exactly = (days: number) => ({ lower: days, upper: days });

/** Batches with exact log-normal times: the middles of equal shares, so that they are as alike as their law. */
function batchesAbout(
  medianDays: number,
  spread: number,
  count: number,
  floralSource: string | null,
  traits: Partial<BatchTraits> = {},
): ForecastBatch[] {
  return Array.from({ length: count }, (_, i) => ({
    ...NO_TRAITS,
    ...traits,
    floralSource,
    observation: exactly(medianDays * Math.exp(spread * normalQuantile((i + 0.5) / count))),
  }));
}

function asked(name: string | null, traits: Partial<BatchTraits> = {}): ForecastProfile {
  return { ...NO_TRAITS, ...traits, floralSource: { known: true, name } };
}

const plan = (profile: ForecastProfile, certainty = 0.8, notSetByDays = 0) => ({
  profile,
  certainty,
  notSetByDays,
  todayDays: notSetByDays > 0 ? notSetByDays + 5 : null,
});
const unknown: ForecastProfile = { ...NO_TRAITS, floralSource: { known: false } };

test('a club without batches is told a week to a month', () => {
  // common practice, no source
  const { within, setBy, restsOn, coolRoom } = forecastSetting([], plan(unknown));

  expect(within[1]!.earliestDays).toBeGreaterThan(5.5);
  expect(within[1]!.earliestDays).toBeLessThan(8);
  expect(within[1]!.latestDays).toBeGreaterThan(27);
  expect(within[1]!.latestDays).toBeLessThan(34);
  expect(setBy[1]!.days).toBeLessThan(setBy[2]!.days!);
  expect(restsOn).toEqual({ all: { batches: 0, setCount: 0 }, ofThisSource: null });
  expect(coolRoom.days).toBe(Math.ceil(setBy[1]!.days!));
});

test('with many batches of one source the forecast is theirs alone', () => {
  // By hand: log-normal about 20 days, spread 0.25: the share p has set by 20 x exp(0.25 x z(p)). The batches are 150, so the
  // width of what is not known adds less than 1 in 100.
  const batches = batchesAbout(20, 0.25, 150, 'lime');

  const { setBy, distributions, restsOn } = forecastSetting(batches, plan(asked('lime')));

  for (const { certainty, days } of setBy) {
    const expected = 20 * Math.exp(0.25 * normalQuantile(certainty));
    expect(Math.abs(Math.log(days! / expected))).toBeLessThan(0.02);
  }
  expect(distributions[0]!.distribution).toBe('lognormal');
  expect(distributions.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  expect(restsOn.ofThisSource).toEqual({ batches: 150, setCount: 150 });
});

test('a source with three batches is drawn towards the club, one with thirty speaks for itself', () => {
  const club = [...batchesAbout(12, 0.3, 25, 'rape'), ...batchesAbout(13, 0.3, 25, 'lime')];
  const medianWith = (count: number) =>
    forecastSetting([...club, ...batchesAbout(30, 0.3, count, 'heather')], plan(asked('heather')))
      .setBy[0]!.days!;

  const [none, three, thirty] = [medianWith(0), medianWith(3), medianWith(30)];

  expect(none).toBeGreaterThan(10);
  expect(none).toBeLessThan(16);
  expect(three).toBeGreaterThan(none + 4);
  expect(three).toBeLessThan(thirty - 1);
  expect(thirty).toBeGreaterThan(27);
  expect(thirty).toBeLessThan(31);
});

test('a source that the club never had is told with less certainty than one that it knows', () => {
  const club = [...batchesAbout(10, 0.2, 20, 'rape'), ...batchesAbout(20, 0.2, 20, 'lime')];
  const width = (profile: ForecastProfile) => {
    const { earliestDays, latestDays } = forecastSetting(club, plan(profile)).within[1]!;
    return Math.log(latestDays! / earliestDays!);
  };

  expect(width(asked('heather'))).toBeGreaterThan(1.5 * width(asked('lime')));
  expect(width(unknown)).toBeCloseTo(width(asked('heather')), 10);
});

test('with the scale supposed known, exact log-normal times give the normal answer of any textbook', () => {
  // Source: A. Gelman and others, "Bayesian Data Analysis" (2013), section 2.5: one normal mean with normal belief.
  const days = [9, 14, 11, 19];
  const [scale, deviation] = [0.35, 0.4];
  const observations = days.map(exactly);
  const design = buildDesign({ observations, covariates: [] }, [0, 1, 2, 3]);
  const logs = days.map((one) => Math.log(one) - design.centre);

  const { ratios, factor, logEvidence } = fitSupposing(lognormalLaw, design.rows, {
    scale,
    deviations: Float64Array.of(deviation),
    start: Float64Array.of(3),
  });

  const precision = 4 / scale ** 2 + 1 / deviation ** 2;
  const sum = logs.reduce((all, log) => all + log, 0);
  const mean = sum / scale ** 2 / precision;
  expect(scale * ratios[0]!).toBeCloseTo(mean, 10);
  expect(Math.exp(factor.logDeterminant) / scale ** 2).toBeCloseTo(precision, 8);
  // The density of all four, correlated through their mean: determinant and quadratic form by hand.
  const squares = logs.reduce((all, log) => all + log * log, 0);
  const expected =
    -2 * Math.log(2 * Math.PI) -
    4 * Math.log(scale) -
    Math.log(deviation * Math.sqrt(precision)) -
    (squares / scale ** 2 - mean ** 2 * precision) / 2;
  expect(logEvidence).toBeCloseTo(expected, 8);
});

test('the belief of a few batches is what plain summing over place and scale gives', () => {
  // An independent calculation for one source and exact times: three laws, each with place, effect of the source, scale and the
  // spread of sources summed over a fine grid, with the priors written out here.
  const days = [8, 13, 10, 22];
  const batches: ForecastBatch[] = days.map((one) => ({
    ...NO_TRAITS,
    floralSource: 'lime',
    observation: exactly(one),
  }));
  const grid = (from: number, to: number, count: number) =>
    Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 0.5)) / count);
  const laws = [
    {
      sd: 1.2825498301618641,
      log: (z: number) => z - Math.exp(z),
      left: (z: number) => Math.exp(-Math.exp(z)),
    },
    { sd: 1, log: (z: number) => -(z * z) / 2 - Math.log(Math.sqrt(2 * Math.PI)), left: upperTail },
    {
      sd: Math.PI / Math.sqrt(3),
      log: (z: number) => z - 2 * Math.log1p(Math.exp(z)),
      left: (z: number) => 1 / (1 + Math.exp(z)),
    },
  ];
  let [whole, notSet] = [0, 0];
  for (const { sd, log, left } of laws) {
    for (const logSpread of grid(Math.log(0.36) - 2, Math.log(0.36) + 2, 40)) {
      const scale = Math.exp(logSpread) / sd;
      for (const logBetween of grid(Math.log(0.01), Math.log(1.5), 30)) {
        const between = Math.exp(logBetween);
        // Place of the source: normal about log(sqrt(210)), both variances together.
        const deviation = Math.sqrt(0.4 ** 2 + between ** 2);
        for (const off of grid(-4, 4, 60)) {
          const place = Math.log(210) / 2 + off * deviation;
          const prior =
            -((logSpread - Math.log(0.36)) ** 2) / (2 * 0.4 ** 2) -
            between ** 2 / (2 * 0.3 ** 2) +
            logBetween -
            off ** 2 / 2;
          const seen = days.reduce(
            (sum, one) => sum + log((Math.log(one) - place) / scale) - Math.log(scale),
            0,
          );
          const weight = Math.exp(prior + seen);
          whole += weight;
          notSet += weight * left((Math.log(20) - place) / scale);
        }
      }
    }
  }

  const belief = beliefFromModel(fitForecastModel(batches, []), asked('lime'));

  expect(Math.abs(Math.exp(predictiveOf(belief, 0).logNotSet(20)) - notSet / whole)).toBeLessThan(
    0.01,
  );
});

/** By Simpson's rule; good to six digits. */
function upperTail(z: number): number {
  const steps = 200;
  const [from, to] = [Math.min(z, 9), 9];
  const width = (to - from) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i += 1) {
    const at = from + i * width;
    sum += (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp((-at * at) / 2);
  }
  return Math.min(1, (sum * width) / 3 / Math.sqrt(2 * Math.PI));
}

test('what is known of enough batches is used, and why the rest is not is said', () => {
  const batches = batchesAbout(14, 0.2, 24, 'lime').map((batch, i) => ({
    ...batch,
    temperatureC: 12 + (i % 5),
    seedPercent: 10,
    moisturePercent: i < 8 ? 17 : null,
    seedGrain: i < 22 ? ('fine' as const) : ('coarse' as const),
  }));
  const profile = asked('lime', {
    temperatureC: 14,
    seedPercent: 8,
    moisturePercent: 18,
    seedGrain: 'coarse',
  });

  const { covariates } = forecastSetting(batches, plan(profile));

  expect(covariates.map(({ trait, why, known }) => [trait, why, known])).toEqual([
    ['temperatureC', 'used', 24],
    ['seedPercent', 'the same in all batches', 24],
    ['seedGrain', 'known of too few batches', 24],
    ['moisturePercent', 'known of too few batches', 8],
    ['honeyAgeDays', 'not known of this batch', 0],
  ]);
  expect(covariates[0]!.range).toEqual({ from: 12, to: 16 });
});

test('a club whose batches take twice as long per 5 degrees less forecasts so', () => {
  const batches = [8, 10, 12, 14, 16, 18].flatMap((temperatureC) =>
    batchesAbout(14 * 2 ** ((14 - temperatureC) / 5), 0.1, 10, 'lime', { temperatureC }),
  );
  const median = (temperatureC: number) =>
    forecastSetting(batches, plan(asked('lime', { temperatureC }))).setBy[0]!.days!;

  expect(median(9) / median(14)).toBeGreaterThan(1.9);
  expect(median(9) / median(14)).toBeLessThan(2.1);
  expect(Math.abs(Math.log(median(14) / 14))).toBeLessThan(0.03);
});

test('looks move a running batch out; past all expectation it is overdue and still gets a day', () => {
  const batches = batchesAbout(14, 0.25, 40, 'lime');
  const at = (days: number) => forecastSetting(batches, plan(asked('lime'), 0.8, days));

  const [planned, late, overdue] = [at(0), at(15), at(40)];

  expect(planned.isOverdue).toBe(false);
  expect(planned.chanceOfNotSetSoFar).toBe(1);
  expect(late.setBy[1]!.days).toBeGreaterThan(planned.setBy[1]!.days!);
  expect(late.isOverdue).toBe(false);
  expect(planned.chanceByToday).toBeNull();
  // By hand: log-normal, the share set between days 15 and 20 of those not set by 15.
  const [by15, by20] = [15, 20].map((days) => 1 - upperTail(Math.log(days / 14) / 0.25));
  expect(Math.abs(late.chanceByToday! - (by20! - by15!) / (1 - by15!))).toBeLessThan(0.06);
  expect(overdue.isOverdue).toBe(true);
  expect(overdue.chanceOfNotSetSoFar).toBeLessThan(0.01);
  expect(overdue.setBy[0]!.days).toBeGreaterThan(40);
  expect(overdue.setBy[2]!.days).toBeLessThan(400);
});

test('the cool room is booked for whole days, and the chance that goes with them is no less than asked', () => {
  const batches = batchesAbout(14, 0.25, 20, 'lime');
  for (const certainty of [0.5, 0.8, 0.95]) {
    const { coolRoom } = forecastSetting(batches, plan(asked('lime'), certainty));
    expect(Number.isInteger(coolRoom.days)).toBe(true);
    expect(coolRoom.chance).toBeGreaterThanOrEqual(certainty);
  }
});

test('the curve rises from nothing to as good as certain, with few points', () => {
  for (const days of [0, 3.4, 60]) {
    const { curve } = forecastSetting(
      batchesAbout(14, 0.4, 6, 'lime'),
      plan(asked('lime'), 0.8, days),
    );

    expect(curve[0]).toEqual({ days, chance: 0 });
    expect(curve.length).toBeLessThanOrEqual(40);
    expect(curve.at(-1)!.chance).toBeGreaterThanOrEqual(0.99);
    for (let i = 1; i < curve.length; i += 1) {
      expect(curve[i]!.chance).toBeGreaterThanOrEqual(curve[i - 1]!.chance);
      expect(curve[i]!.days).toBeGreaterThan(curve[i - 1]!.days);
    }
  }
});

test('certainties and days that are none are refused', () => {
  for (const certainty of [0, 1, NaN]) {
    expect(() => forecastSetting([], plan(unknown, certainty))).toThrow(RangeError);
  }
  for (const days of [-1, NaN, Infinity]) {
    expect(() => forecastSetting([], plan(unknown, 0.8, days))).toThrow(RangeError);
  }
});

test('with many batches the days are those that a regression by other hands names', () => {
  // Source: test/references/survival, R 4.2.2: log-normal regression of 500 simulated batches of six floral sources with four traits.
  // Each day must lie within 3 of R's own standard errors and 3 in 100: the priors and the logarithm of the seed weigh a little.
  const { reference, result } = resultsOfKind('aft').find(
    (one) => one.reference.id === 'sim-2-lognormal-500' && one.result.dist === 'lognormal',
  )!;
  const { source, temperature, seedPct, moisture, ageDays } = reference.data.columns;
  const observations = observationsOf(reference, null, '');
  const batches = observations.map((observation, row) => ({
    ...NO_TRAITS,
    observation,
    floralSource: String(source![row]),
    temperatureC: Number(temperature![row]),
    seedPercent: Number(seedPct![row]),
    moisturePercent: Number(moisture![row]),
    honeyAgeDays: Number(ageDays![row]),
  }));

  for (const { profile, p, logQuantile, logSe } of result.predictions) {
    const { setBy, distributions, covariates } = forecastSetting(
      batches,
      plan(
        asked(String(profile['source']), {
          temperatureC: Number(profile['temperature']),
          seedPercent: Number(profile['seedPct']),
          moisturePercent: Number(profile['moisture']),
          honeyAgeDays: Number(profile['ageDays']),
        }),
      ),
    );
    expect(distributions[0]!.distribution).toBe('lognormal');
    expect(covariates.filter(({ used }) => used)).toHaveLength(4);
    for (const { certainty, days } of setBy) {
      const i = p.indexOf(certainty);
      if (i < 0) continue;
      expect(Math.abs(Math.log(days!) - logQuantile[i]!)).toBeLessThan(3 * logSe[i]! + 0.03);
    }
  }
});
