import { temperatureBand } from '../../../src/core/setting/temperature-band';

test.each([
  [13.2, 12, 14],
  [12, 12, 14],
  [13.999, 12, 14],
  [-0.1, -2, 0],
  [0, 0, 2],
])('%d °C lies in %d to %d °C', (temperatureC, fromC, toC) => {
  expect(temperatureBand(temperatureC)).toEqual({ fromC, toC });
});

test('a temperature that is none has no band', () => {
  expect(() => temperatureBand(NaN)).toThrow(RangeError);
});
