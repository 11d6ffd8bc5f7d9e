import {
  checkObservation,
  observationKind,
  type SettingObservation,
} from '../../../src/core/setting/observation';

const kinds: [SettingObservation, string][] = [
  [{ lower: 7, upper: 7 }, 'exact'],
  [{ lower: 7, upper: 9 }, 'interval'],
  [{ lower: 0, upper: 9 }, 'left-censored'],
  [{ lower: 7, upper: null }, 'right-censored'],
  [{ lower: 0, upper: null }, 'right-censored'],
];

test.each(kinds)('%j is %s, and true for all we know', (observation, kind) => {
  expect(observationKind(observation)).toBe(kind);
  expect(() => checkObservation(observation)).not.toThrow();
});

const impossible: [SettingObservation, string][] = [
  [{ lower: -1, upper: 3 }, 'lower'],
  [{ lower: NaN, upper: 3 }, 'lower'],
  [{ lower: Infinity, upper: null }, 'lower'],
  [{ lower: 4, upper: 3 }, 'upper'],
  [{ lower: 0, upper: 0 }, 'upper'],
  [{ lower: 1, upper: Infinity }, 'upper'],
  [{ lower: 1, upper: NaN }, 'upper'],
  [{ lower: 1, upper: 2, weight: 0 }, 'weight'],
  [{ lower: 1, upper: 2, weight: 1.5 }, 'weight'],
];

test.each(impossible)(
  '%j cannot be true, and the refusal names what is wrong',
  (observation, name) => {
    expect(() => checkObservation(observation)).toThrow(RangeError);
    expect(() => checkObservation(observation)).toThrow(name);
  },
);
