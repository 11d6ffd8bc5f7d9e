import fc from 'fast-check';
import {
  checksToObservation,
  type SettingCheck,
  type SettingState,
} from '../../../src/core/setting/checks-to-observation';

const day = 86_400_000;
const seededAt = Date.UTC(2024, 9, 1, 16);
const look = (days: number, state: SettingState): SettingCheck => ({
  at: seededAt + days * day,
  state,
});

test('a batch set between the last look that found it unset and the first that found it set', () => {
  const checks = [look(3, 'liquid'), look(7.5, 'thickening'), look(10, 'set'), look(12, 'set')];

  expect(checksToObservation(checks, seededAt)).toEqual({ lower: 7.5, upper: 10 });
});

test('a batch found set at the first look set at any time before it', () => {
  expect(checksToObservation([look(9, 'set')], seededAt)).toEqual({ lower: 0, upper: 9 });
});

test('thickening is not set', () => {
  expect(checksToObservation([look(9, 'thickening')], seededAt)).toEqual({ lower: 9, upper: null });
});

test('a batch that nobody looked at tells nothing, nor does a look at the moment of seeding', () => {
  expect(checksToObservation([], seededAt)).toBeNull();
  expect(checksToObservation([look(0, 'liquid')], seededAt)).toBeNull();
});

test('once seen set, a batch stays set whatever a later look says', () => {
  const checks = [look(3, 'liquid'), look(6, 'set'), look(8, 'thickening'), look(9, 'set')];

  expect(checksToObservation(checks, seededAt)).toEqual({ lower: 3, upper: 6 });
});

test('of two looks at one moment that disagree, the one that found it set wins', () => {
  const checks = [look(3, 'liquid'), look(6, 'thickening'), look(6, 'set')];

  expect(checksToObservation(checks, seededAt)).toEqual({ lower: 3, upper: 6 });
});

test('a look before the seed was stirred in, or set at that moment, is refused', () => {
  expect(() => checksToObservation([look(-1, 'liquid')], seededAt)).toThrow(RangeError);
  expect(() => checksToObservation([look(0, 'set')], seededAt)).toThrow(RangeError);
  expect(() => checksToObservation([look(NaN, 'set')], seededAt)).toThrow(RangeError);
  expect(() => checksToObservation([], NaN)).toThrow(RangeError);
});

test('whenever a batch truly set and in whatever order its looks are told, the interval holds that time', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 40 * day }),
      fc.uniqueArray(fc.integer({ min: 1, max: 50 * day }), { minLength: 1, maxLength: 9 }),
      (trueMilliseconds, looksAfterMilliseconds) => {
        const checks = looksAfterMilliseconds.map((after): SettingCheck => ({
          at: seededAt + after,
          state: after >= trueMilliseconds ? 'set' : 'liquid',
        }));

        const observation = checksToObservation(checks, seededAt);

        expect(observation?.lower).toBeLessThan(trueMilliseconds / day);
        expect(observation?.upper ?? Infinity).toBeGreaterThanOrEqual(trueMilliseconds / day);
      },
    ),
    { numRuns: 400 },
  );
});
