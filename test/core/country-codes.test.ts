import { countryCodes } from '../../src/core/country-codes';

test('each country has its code once, in the order of the alphabet', () => {
  expect(countryCodes).toEqual([...new Set(countryCodes)].sort());
  // ISO 3166-1 has 249 officially assigned codes (as of the latest newsletter known to us; from memory).
  expect(countryCodes).toHaveLength(249);
});

test('each code is that of a region which the Unicode CLDR knows by name', () => {
  // Independent list: the region names of the JavaScript engine, which stem from the Unicode CLDR.
  const names = new Intl.DisplayNames(['en'], { type: 'region', fallback: 'none' });

  expect(countryCodes.filter((code) => names.of(code) === undefined)).toEqual([]);
});
