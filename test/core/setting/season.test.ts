import { seasonOf } from '../../../src/core/setting/season';

test('a season goes by the calendar of the club, not by that of the machine', () => {
  // The last evening of February in Vienna is the first morning of March in Auckland.
  const moment = Date.parse('2026-02-28T20:00:00Z');

  expect(seasonOf(moment, 'Europe/Vienna')).toBe('December to February');
  expect(seasonOf(moment, 'Pacific/Auckland')).toBe('March to May');
});

test.each([
  ['2026-12-01T12:00:00Z', 'December to February'],
  ['2026-01-15T12:00:00Z', 'December to February'],
  ['2026-05-31T12:00:00Z', 'March to May'],
  ['2026-06-01T12:00:00Z', 'June to August'],
  ['2026-11-30T12:00:00Z', 'September to November'],
])('%s lies in %s', (at, season) => {
  expect(seasonOf(Date.parse(at), 'UTC')).toBe(season);
});

test('a time that is none, and a zone that nobody knows, are refused', () => {
  expect(() => seasonOf(NaN, 'UTC')).toThrow(RangeError);
  expect(() => seasonOf(0, 'Middle/Earth')).toThrow(RangeError);
});
