import {
  bessel,
  cylinderLeft,
  cylinderMeanLeft,
  cylinderTerms,
  wallTerms,
} from './analytic-conduction';

describe('the yardstick for the warming of pails', () => {
  // Çengel, Table 4-2 (as Incropera, Table 5.1): ζ1 and C1 of wall and cylinder. Bi 20 to 100 derived.
  test.each([
    [0.01, 0.0998, 1.0017, 0.1412, 1.0025],
    [0.1, 0.3111, 1.0161, 0.4417, 1.0246],
    [0.2, 0.4328, 1.0311, 0.617, 1.0483],
    [0.5, 0.6533, 1.0701, 0.9408, 1.1143],
    [1, 0.8603, 1.1191, 1.2558, 1.2071],
    [2, 1.0769, 1.1785, 1.5995, 1.3384],
    [3, 1.1925, 1.2102, 1.7887, 1.4191],
    [4, 1.2646, 1.2287, 1.9081, 1.4698],
    [5, 1.3138, 1.2403, 1.9898, 1.5029],
    [6, 1.3496, 1.2479, 2.049, 1.5253],
    [8, 1.3978, 1.257, 2.1286, 1.5526],
    [10, 1.4289, 1.262, 2.1795, 1.5677],
    [20, 1.4961, 1.2699, 2.288, 1.5919],
    [50, 1.54, 1.2727, 2.3572, 1.6002],
    [100, 1.5552, 1.2731, 2.3809, 1.6015],
  ])('has the tabulated first terms at Bi %d', (biot, wallRoot, wallC, cylinderRoot, cylinderC) => {
    const wall = wallTerms(biot, 1)[0]!;
    const cylinder = cylinderTerms(biot, 1)[0]!;

    expect(Math.abs(wall.root - wallRoot)).toBeLessThan(0.0002);
    expect(Math.abs(wall.amplitude - wallC)).toBeLessThan(0.0002);
    expect(Math.abs(cylinder.root - cylinderRoot)).toBeLessThan(0.0002);
    expect(Math.abs(cylinder.amplitude - cylinderC)).toBeLessThan(0.0002);
  });

  // Çengel, Table 4-3: J0(1) and J1(1).
  test('has the tabulated Bessel functions', () => {
    expect(Math.abs(bessel(0, 1) - 0.7652)).toBeLessThan(0.0001);
    expect(Math.abs(bessel(1, 1) - 0.44)).toBeLessThan(0.0001);
  });

  // Çengel, problem 4-60 (11-41), a long steel shaft: one term gives 390 °C on the axis; the full
  // series (derived) 385.7 °C, and 0.1745 of the heat given off (one term: 0.1761).
  test('gives the worked shaft 390 °C by one term and 385.7 °C by the series', () => {
    const [biot, fourier] = [(60 * 0.175) / 14.9, (3.95e-6 * 1200) / 0.175 ** 2];
    const terms = cylinderTerms(biot, 20);
    const axisC = (count: number) => 150 + 250 * cylinderLeft(terms.slice(0, count), 0, fourier);

    expect(Math.abs(axisC(1) - 390)).toBeLessThan(0.5);
    expect(Math.abs(axisC(20) - 385.7)).toBeLessThan(0.1);
    expect(1 - cylinderMeanLeft(terms, fourier)).toBeCloseTo(0.1745, 3);
  });
});
