import type { SettingObservation } from '../../../../src/core/setting/observation';
import type { Covariate } from '../../../../src/core/setting/regression/covariate';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import { fitRegression } from '../../../../src/core/setting/regression/fit-regression';
import type { NoEstimate } from '../../../../src/core/setting/regression/no-estimate';
import {
  noEstimateInWords,
  setAsideInWords,
} from '../../../../src/core/setting/regression/no-estimate-in-words';
import { estimateOf } from './regression-cases';

const distributions: Distribution[] = ['weibull', 'lognormal', 'loglogistic'];
const exact = (time: number): SettingObservation => ({ lower: time, upper: time });
const within = (lower: number, upper: number): SettingObservation => ({ lower, upper });
const after = (lower: number): SettingObservation => ({ lower, upper: null });
const before = (upper: number): SettingObservation => ({ lower: 0, upper });
const numeric = (name: string, values: number[]): Covariate => ({ kind: 'numeric', name, values });
const factor = (name: string, levels: string[], values: string[]): Covariate => ({
  kind: 'factor',
  name,
  levels,
  values,
});
const eight = [3, 5, 6, 8, 9, 11, 14, 20].map(exact);

type Refused = [
  what: string,
  observations: SettingObservation[],
  covariates: Covariate[],
  reason: NoEstimate['reason'],
  terms: string[],
];

// Each has no maximum, by the conditions of J. Burridge, J. R. Statist. Soc. B 43 (1981): along some
// direction no row becomes less likely.
const refused: Refused[] = [
  ['nothing', [], [], 'nothing observed', []],
  ['batches none of which has set', [after(4), after(9)], [], 'none seen set', []],
  ['one batch still setting', [after(4)], [], 'none seen set', []],
  [
    'batches all set at the first look',
    [before(4), before(3), before(7)],
    [],
    'all set before the first look',
    [],
  ],
  ['one exact time', [exact(5)], [], 'no spread', []],
  ['one interval', [within(5, 9)], [], 'no spread', []],
  ['three times the same', [exact(5), exact(5), exact(5)], [], 'no spread', []],
  ['intervals that share a day', [within(5, 9), within(7, 12), after(6)], [], 'no spread', []],
  [
    'one exact time that all others allow',
    [exact(8), within(5, 9), within(7, 12), after(6), before(30)],
    [],
    'no spread',
    [],
  ],
  [
    'two times and a number that explains both',
    [exact(5), exact(9)],
    [numeric('seedPercent', [10, 5])],
    'no spread',
    [],
  ],
  [
    'later looks at batches of which fewer had set',
    [before(3), before(4), before(5), after(6), after(7), after(8)],
    [],
    'later looks found no more set',
    [],
  ],
  [
    'a number twice as large as another',
    eight,
    [
      numeric('seedPercent', [4, 6, 5, 8, 9, 4, 7, 8]),
      numeric('seedPermille', [40, 60, 50, 80, 90, 40, 70, 80]),
    ],
    'columns explain each other',
    ['seedPercent', 'seedPermille'],
  ],
  [
    'a number that is the same in all batches',
    eight,
    [numeric('roomC', new Array<number>(8).fill(14.1))],
    'columns explain each other',
    ['roomC'],
  ],
  [
    'two factors that always go together',
    eight,
    [
      factor(
        'source',
        ['clover', 'lime'],
        Array.from('ccllccll').map((c) => (c === 'c' ? 'clover' : 'lime')),
      ),
      factor(
        'room',
        ['north', 'south'],
        Array.from('ccllccll').map((c) => (c === 'c' ? 'north' : 'south')),
      ),
    ],
    'columns explain each other',
    ['source lime', 'room south'],
  ],
  [
    'cool batches all still setting',
    [exact(5), exact(7), exact(12), within(4, 6), after(30), after(20), after(9)],
    [numeric('roomC', [14, 14, 14, 14, 8, 10, 6])],
    'covariates part set from unset',
    ['roomC'],
  ],
  [
    'a source with none set and another with all set at the first look',
    [after(5), after(7), before(3), before(4)],
    [factor('source', ['clover', 'lime'], ['clover', 'clover', 'lime', 'lime'])],
    'covariates part set from unset',
    ['source clover', 'source lime'],
  ],
];

describe.each(distributions)('with a %s law', (distribution) => {
  test.each(refused)('%s give no estimate', (_, observations, covariates, reason, terms) => {
    const fit = fitRegression({ observations, covariates }, distribution);

    expect(fit).toEqual({ kind: 'no-estimate', reason, terms });
  });

  test('levels without an estimate are set aside, also those that only that leaves so', () => {
    // Without lime, which has not set, the north room holds only one early batch.
    const observations = [...eight, after(9), { ...after(12), weight: 2 }, before(3)];
    const source = Array.from('ccccccccllc').map((c) => (c === 'c' ? 'clover' : 'lime'));
    const room = Array.from('ssssssssnnn').map((c) => (c === 's' ? 'south' : 'north'));
    const rooms = factor('room', ['north', 'south'], room);
    const sources = factor('source', ['clover', 'lime', 'heather'], source);

    const fit = estimateOf({ observations, covariates: [rooms, sources] }, distribution);
    const rest = estimateOf({ observations: eight, covariates: [] }, distribution);

    expect(fit.setAside).toEqual([
      { covariate: 'source', level: 'lime', n: 3, why: 'none seen set' },
      { covariate: 'source', level: 'heather', n: 0, why: 'no batches' },
      { covariate: 'room', level: 'north', n: 1, why: 'all set before the first look' },
    ]);
    expect(fit.coefficients).toEqual(rest.coefficients);
    expect(fit.terms).toEqual([{ kind: 'intercept' }]);
    expect([fit.n, fit.setCount]).toEqual([8, 8]);
  });

  test('a little spread, or one batch that breaks the pattern, is enough for an estimate', () => {
    estimateOf({ observations: [exact(5), exact(5.01)], covariates: [] }, distribution);
    estimateOf({ observations: [within(5, 7), within(7.1, 9)], covariates: [] }, distribution);
    estimateOf(
      {
        observations: [exact(5), exact(7), exact(12), within(4, 6), after(30), after(20), after(9)],
        covariates: [numeric('roomC', [14, 14, 9, 14, 8, 10, 6])],
      },
      distribution,
    );
  });

  test('a batch of which nothing is known changes nothing', () => {
    const with0 = { observations: [...eight, after(0)], covariates: [] };
    const without = { observations: eight, covariates: [] };

    const fit = estimateOf(with0, distribution);

    expect(fit.coefficients).toEqual(estimateOf(without, distribution).coefficients);
    expect([fit.n, fit.setCount]).toEqual([9, 8]);
  });
});

test.each(refused)('of %s it is said why in words', (_, observations, covariates, __, terms) => {
  const fit = fitRegression({ observations, covariates }, 'weibull');
  if (fit.kind !== 'no-estimate') throw new Error('expected none');

  const words = noEstimateInWords(fit);

  expect(words).toMatch(/^[A-Z].*\.$/);
  for (const term of terms) expect(words).toContain(term);
});

test('the sentences are those that a member reads', () => {
  const of = (reason: NoEstimate['reason'], terms: string[] = []) =>
    noEstimateInWords({ kind: 'no-estimate', reason, terms });

  expect(of('nothing observed')).toBe('No batch has been looked at yet.');
  expect(of('none seen set')).toContain('None of these batches has been seen set');
  expect(of('all set before the first look')).toContain('look earlier');
  expect(of('no spread')).toContain('too few or too alike');
  expect(of('later looks found no more set')).toContain('no more had set');
  expect(of('columns explain each other', ['a', 'b'])).toContain('apart: a, b. Leave one out');
  expect(of('covariates part set from unset', ['a', 'b'])).toContain('entirely in: a, b.');
  const level = { covariate: 'source', level: 'lime' };
  expect(setAsideInWords({ ...level, n: 0, why: 'no batches' })).toBe('source lime: no batch yet.');
  expect(setAsideInWords({ ...level, n: 3, why: 'none seen set' })).toBe(
    'source lime: none of the 3 batches has been seen set yet; only that they are slower than some pace can be known.',
  );
  expect(setAsideInWords({ ...level, n: 1, why: 'none seen set' })).toContain(
    'the one batch has not been seen set yet',
  );
  expect(setAsideInWords({ ...level, n: 1, why: 'all set before the first look' })).toContain(
    'nobody looked before the one batch had set; only that they are faster',
  );
  expect(setAsideInWords({ ...level, n: 2, why: 'all set before the first look' })).toContain(
    'nobody looked before any of the 2 batches had set',
  );
});
