import { beliefFromPooling } from '../../../../src/core/setting/pooling/pooled-belief';
import {
  levelEffects,
  poolLevels,
  type PooledLevels,
} from '../../../../src/core/setting/pooling/pool-levels';
import { rankLevels } from '../../../../src/core/setting/pooling/rank-levels';
import { seededRandom } from '../../../../src/core/random';
import { chanceSetBy, coolRoomDays } from '../../../../src/core/setting/forecast/setting-forecast';
import type { SettingObservation } from '../../../../src/core/setting/observation';
import type { RegressionData } from '../../../../src/core/setting/regression/covariate';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import { errorLaw } from '../../../../src/core/setting/regression/error-laws';
import { estimateOf } from '../regression/regression-cases';
import { drawnTime, lookedAt } from '../regression/simulated-batches';

type Source = [name: string, observations: SettingObservation[]];

function dataOf(sources: Source[]): RegressionData {
  return {
    observations: sources.flatMap(([, observations]) => observations),
    covariates: [
      {
        kind: 'factor',
        name: 'source',
        levels: sources.map(([name]) => name),
        values: sources.flatMap(([name, observations]) => observations.map(() => name)),
      },
    ],
  };
}

function pooled(data: RegressionData, distribution: Distribution): PooledLevels {
  const answer = poolLevels(data, distribution, 'source');
  if (answer.kind !== 'estimate') throw new Error(answer.reason);
  return answer;
}

const exact = (...times: number[]) => times.map((time) => ({ lower: time, upper: time }));
const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

// Three sources of four batches each, exact times.
const balanced: [string, number[]][] = [
  ['clover', [12, 15, 17, 14]],
  ['lime', [19, 16, 24, 21]],
  ['heather', [9, 13, 12, 10]],
];
const logs = balanced.map(([, times]) => times.map(Math.log));
const grand = mean(logs.flat());

test('with exact log-normal times effects are the best linear predictions of a mixed model', () => {
  // Source: C. R. Henderson, Biometrics 31 (1975): the source's mean less the grand mean, times
  // n k^2 / (1 + n k^2), with k the spread in units of the scale.
  const { parts, terms } = pooled(
    dataOf(balanced.map(([name, t]) => [name, exact(...t)])),
    'lognormal',
  );

  expect(terms.map(({ kind }) => kind)).toEqual(['intercept', 'level', 'level', 'level']);
  for (const { relativeSpread, coefficients, effectiveCoefficients } of parts) {
    const share = (4 * relativeSpread ** 2) / (1 + 4 * relativeSpread ** 2);
    expect(coefficients[0]).toBeCloseTo(grand, 8);
    logs.forEach((own, g) => {
      expect(coefficients[g + 1]).toBeCloseTo(share * (mean(own) - grand), 8);
    });
    // One for the mean, and so much of two differences.
    expect(effectiveCoefficients).toBeCloseTo(1 + 2 * share, 8);
  }
});

test('with exact log-normal times spreads are believed as the marginal likelihood says', () => {
  // By hand: given k, the logarithms are normal with correlated sources; integrating out mean and
  // scale leaves (1 + n k^2)^(-(groups - 1) / 2) x Q^(-(N - 1) / 2), with Q the squares within plus
  // those between / (1 + n k^2); times the half-Cauchy prior and k, for steps of equal ratio.
  const { parts } = pooled(dataOf(balanced.map(([name, t]) => [name, exact(...t)])), 'lognormal');
  const within = logs.flatMap((own) => own.map((log) => (log - mean(own)) ** 2));
  const between = logs.map((own) => 4 * (mean(own) - grand) ** 2);
  const evidence = parts.map(({ relativeSpread: k }) => {
    const enlarged = 1 + 4 * k * k;
    const squares = 12 * mean(within) + (3 * mean(between)) / enlarged;
    return (enlarged ** -1 * squares ** -5.5 * k) / (1 + k * k);
  });

  const total = evidence.reduce((sum, value) => sum + value, 0);
  parts.forEach(({ weight }, i) => expect(weight).toBeCloseTo(evidence[i]! / total, 7));
  expect(parts).toHaveLength(16);
  expect(parts[0]!.relativeSpread).toBeCloseTo(0.1, 12);
  expect(parts[15]!.relativeSpread).toBeCloseTo(5.12, 2);
});

test('averaged effects are those of the parts, and their spread holds that between the parts', () => {
  const answer = pooled(dataOf(balanced.map(([name, t]) => [name, exact(...t)])), 'lognormal');

  const { effects, covariance } = levelEffects(answer);

  effects.forEach((effect, g) => {
    const by = answer.parts.map(({ weight, coefficients }) => weight * coefficients[g + 1]!);
    expect(effect).toBeCloseTo(
      by.reduce((sum, value) => sum + value, 0),
      12,
    );
    const within = answer.parts.reduce((sum, part) => {
      const logScaleVariance = part.covariance.at(-1)!.at(-1)!;
      const larger = Math.exp(2 * part.effectiveCoefficients * logScaleVariance);
      return sum + part.weight * part.covariance[g + 1]![g + 1]! * larger;
    }, 0);
    const between = answer.parts.reduce(
      (sum, { weight, coefficients }) => sum + weight * (coefficients[g + 1]! - effect) ** 2,
      0,
    );
    expect(covariance[g]![g]).toBeCloseTo(within + between, 10);
  });
  expect(covariance[0]![1]).toBeCloseTo(covariance[1]![0]!, 12);
});

const many = Array.from({ length: 40 }, (_, i) => 10 + 6 * Math.sin(i * 1.7) ** 2);

test('three batches do not shout: the fewer, the nearer to the mean', () => {
  const few = many.slice(0, 3).map((time) => time * 2);
  const sources: Source[] = [
    ['clover', exact(...many)],
    ['lime', exact(...many.map((time) => time * 1.1))],
    ['rape', exact(...many.map((time) => time * 0.9))],
    ['heather', exact(...few)],
  ];
  const own = estimateOf(dataOf(sources), 'weibull');

  const { effects } = levelEffects(pooled(dataOf(sources), 'weibull'));
  const more = levelEffects(
    pooled(
      dataOf([...sources.slice(0, 3), ['heather', exact(...many.map((time) => time * 2))]]),
      'weibull',
    ),
  );

  const apart = effects[3]! - effects[0]!;
  expect(apart).toBeGreaterThan(0.1);
  expect(apart).toBeLessThan(0.95 * own.coefficients[3]!);
  expect(more.effects[3]! - more.effects[0]!).toBeCloseTo(Math.log(2), 1);
});

test('a source with none set, and one without a batch, still have a figure', () => {
  const sources: Source[] = [
    ['clover', exact(...many.slice(0, 12))],
    ['lime', [{ lower: 30, upper: null, weight: 2 }]],
    ['heather', []],
  ];

  const answer = pooled(dataOf(sources), 'weibull');
  const { levels } = rankLevels(answer);

  expect(levels.map(({ level }) => level)).toEqual(['clover', 'heather', 'lime']);
  expect(answer.levels).toEqual([
    { level: 'clover', n: 12, setCount: 12 },
    { level: 'lime', n: 2, setCount: 0 },
    { level: 'heather', n: 0, setCount: 0 },
  ]);
  // Nothing is known of heather but that it is one of them.
  expect(levels[1]!.speed.ratio).toBeCloseTo(1, 8);
  const day = (source: string) => {
    const belief = beliefFromPooling(answer, { source });
    if (belief.kind !== 'belief') throw new Error('expected a belief');
    return coolRoomDays(belief, 0.8)!;
  };
  expect(day('lime')).toBeGreaterThan(30);
  expect(day('heather')).toBeGreaterThan(day('clover'));
});

test('sources far apart are ranked, alike ones are not', () => {
  const times = (factor: number) => exact(...many.map((time) => time * factor));
  const answer = pooled(
    dataOf([
      ['clover', times(1)],
      ['lime', times(2)],
      ['heather', times(0.5)],
      ['rape', times(1.01)],
    ]),
    'lognormal',
  );

  const { pairs, order, levels } = rankLevels(answer);

  expect(levels.map(({ level }) => level)).toEqual(['heather', 'clover', 'rape', 'lime']);
  expect(levels[0]).toMatchObject({ n: 40, setCount: 40 });
  expect(levels[0]!.speed.ratio).toBeGreaterThan(1.5);
  expect(levels[3]!.speed.ratio).toBeLessThan(0.8);
  expect(order).toBeNull();
  expect(pairs).toHaveLength(6);
  expect(pairs.filter(({ toldApart }) => !toldApart)).toMatchObject([
    { faster: 'clover', slower: 'rape' },
  ]);
  const widest = pairs.find(({ faster, slower }) => faster === 'heather' && slower === 'lime');
  expect(widest!.speed.ratio).toBeCloseTo(4, 0);
  expect(widest!.speed.lower).toBeLessThan(widest!.speed.ratio);
  expect(widest!.speed.upper).toBeGreaterThan(widest!.speed.ratio);

  const three = pooled(
    dataOf([
      ['lime', times(2)],
      ['clover', times(1)],
      ['heather', times(0.5)],
    ]),
    'lognormal',
  );
  expect(rankLevels(three).order).toEqual(['heather', 'clover', 'lime']);
});

test('the limits of a pair are normal on the logarithm, with the covariance of both', () => {
  const answer = pooled(dataOf(balanced.map(([name, t]) => [name, exact(...t)])), 'lognormal');
  const { effects, covariance } = levelEffects(answer);

  const { pairs, levels } = rankLevels(answer, 0.9);

  const pair = pairs.find(({ faster, slower }) => faster === 'clover' && slower === 'lime')!;
  const variance = covariance[0]![0]! + covariance[1]![1]! - 2 * covariance[0]![1]!;
  const log = effects[1]! - effects[0]!;
  expect(Math.log(pair.speed.ratio)).toBeCloseTo(log, 12);
  expect(Math.log(pair.speed.lower)).toBeCloseTo(log - 1.644854 * Math.sqrt(variance), 6);
  expect(Math.log(pair.speed.upper)).toBeCloseTo(log + 1.644854 * Math.sqrt(variance), 6);
  const clover = levels.find(({ level }) => level === 'clover')!;
  expect(Math.log(clover.speed.ratio)).toBeCloseTo(-effects[0]!, 12);
  expect(Math.log(clover.speed.upper)).toBeCloseTo(
    -effects[0]! + 1.644854 * Math.sqrt(covariance[0]![0]!),
    6,
  );
  for (const wrong of [0, 1, NaN]) expect(() => rankLevels(answer, wrong)).toThrow(RangeError);
});

const names = ['clover', 'lime', 'heather', 'rape', 'sunflower', 'acacia'];
const sizes = [3, 4, 6, 10, 15, 20];

/** A club whose sources differ by a normal effect of the given spread. */
function clubOf(seed: number, spread: number) {
  const random = seededRandom(seed);
  const effects = names.map(() => spread * errorLaw('lognormal').quantile(random()));
  const timeOf = (g: number) => drawnTime(random, 'weibull', Math.log(14) + effects[g]!, 0.4);
  const data = dataOf(
    names.map((name, g) => [
      name,
      Array.from({ length: sizes[g]! }, () => lookedAt(random, timeOf(g), 30)),
    ]),
  );
  return { effects, data, timeOf };
}

test('where sources are alike hardly any are told apart, and pooling errs less than half as much', () => {
  // 40 clubs of six sources: 600 pairs, of which 30 would be told apart by unpooled 95 % limits.
  let [told, own, together] = [0, 0, 0];
  for (let seed = 1; seed <= 40; seed += 1) {
    const { data } = clubOf(seed, 0);
    const answer = pooled(data, 'weibull');
    told += rankLevels(answer).pairs.filter(({ toldApart }) => toldApart).length;
    const { effects } = levelEffects(answer);
    const unpooled = [0, ...estimateOf(data, 'weibull').coefficients.slice(1)];
    own += mean(unpooled.map((effect) => (effect - mean(unpooled)) ** 2));
    together += mean(effects.map((effect) => (effect - mean(effects)) ** 2));
  }

  expect(told).toBeLessThanOrEqual(12);
  expect(together).toBeLessThan(own / 4);
});

test('where sources differ, limits of pairs hold the truth and forecasts come true as often as said', () => {
  const counts = { pairs: 0, held: 0, asked: 0, within: 0 };
  for (let seed = 1001; seed <= 1050; seed += 1) {
    const { data, effects, timeOf } = clubOf(seed, 0.3);
    const answer = pooled(data, 'weibull');
    for (const { faster, slower, speed } of rankLevels(answer).pairs) {
      const truth = effects[names.indexOf(slower)]! - effects[names.indexOf(faster)]!;
      counts.pairs += 1;
      if (Math.log(speed.lower) <= truth && truth <= Math.log(speed.upper)) counts.held += 1;
    }
    names.forEach((source, g) => {
      const belief = beliefFromPooling(answer, { source });
      if (belief.kind !== 'belief') throw new Error('expected a belief');
      for (let asked = 0; asked < 6; asked += 1) {
        const share = chanceSetBy(belief, timeOf(g));
        counts.asked += 1;
        if (share > 0.1 && share < 0.9) counts.within += 1;
      }
    });
  }

  expect(counts.held / counts.pairs).toBeGreaterThan(0.9);
  expect(counts.within / counts.asked).toBeGreaterThan(0.76);
  expect(counts.within / counts.asked).toBeLessThan(0.85);
});

test('other covariates are fitted beside, and levels of other factors set aside', () => {
  const data = dataOf([
    ['clover', exact(12, 15, 17, 14)],
    ['lime', [...exact(19, 16, 24), { lower: 50, upper: null }]],
  ]);
  const room = {
    kind: 'factor' as const,
    name: 'room',
    levels: ['north', 'south'],
    values: ['north', 'north', 'north', 'north', 'north', 'north', 'north', 'south'],
  };
  const seedPercent = {
    kind: 'numeric' as const,
    name: 'seedPercent',
    values: [8, 9, 5, 6, 7, 10, 4, 8],
  };

  const answer = pooled(
    { ...data, covariates: [...data.covariates, room, seedPercent] },
    'lognormal',
  );

  expect(answer.terms.map((term) => ('covariate' in term ? term.covariate : 'intercept'))).toEqual([
    'intercept',
    'source',
    'source',
    'seedPercent',
  ]);
  expect(answer.setAside).toMatchObject([{ level: 'south', why: 'none seen set' }]);
  expect(answer.levels).toEqual([
    { level: 'clover', n: 4, setCount: 4 },
    { level: 'lime', n: 3, setCount: 3 },
  ]);
  const profile = { source: 'lime', room: 'north', seedPercent: 8 };
  expect(beliefFromPooling(answer, profile).kind).toBe('belief');
  expect(beliefFromPooling(answer, { ...profile, room: 'south' })).toMatchObject({
    kind: 'no-estimate',
    level: { level: 'south' },
  });
  expect(() => beliefFromPooling(answer, { ...profile, source: 'rape' })).toThrow(
    /among clover, lime, got rape/,
  );
});

test('where nothing can be estimated it is said why', () => {
  const still = [{ lower: 9, upper: null }];
  const same: RegressionData['covariates'][number] = {
    kind: 'numeric',
    name: 'roomC',
    values: new Array<number>(8).fill(14),
  };
  const two = dataOf([
    ['clover', exact(12, 15, 17, 14)],
    ['lime', exact(19, 16, 24, 20)],
  ]);
  const of = (data: RegressionData) => poolLevels(data, 'weibull', 'source');

  expect(of(dataOf([['clover', still]]))).toMatchObject({ reason: 'none seen set' });
  expect(of(dataOf([]))).toMatchObject({ reason: 'nothing observed' });
  expect(of(dataOf([['clover', exact(5)]]))).toMatchObject({ reason: 'no spread' });
  expect(of({ ...two, covariates: [...two.covariates, same] })).toEqual({
    kind: 'no-estimate',
    reason: 'columns explain each other',
    terms: ['roomC'],
  });
  const parted: RegressionData['covariates'][number] = {
    kind: 'factor',
    name: 'room',
    levels: ['north', 'south'],
    values: ['north', 'south'],
  };
  const split = dataOf([['clover', [...still, { lower: 0, upper: 4 }]]]);
  expect(of({ ...split, covariates: [...split.covariates, parted] })).toEqual({
    kind: 'no-estimate',
    reason: 'covariates part set from unset',
    terms: ['room north', 'room south'],
  });
});

test('only a factor of the data can be pooled', () => {
  const data = dataOf([['clover', exact(12, 15, 17, 14)]]);

  expect(() => poolLevels(data, 'weibull', 'room')).toThrow(RangeError);
  expect(() => poolLevels({ ...data, observations: [] }, 'weibull', 'source')).toThrow(RangeError);
});
