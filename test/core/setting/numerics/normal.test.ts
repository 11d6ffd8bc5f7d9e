import fc from 'fast-check';
import {
  logNormalUpperTail,
  normalQuantile,
  normalTailRatio,
  normalUpperTail,
} from '../../../../src/core/setting/numerics/normal';

// Source: erfc to 40 digits in mpmath 1.3.0 (Python); mpf arithmetic of exactly these doubles.
const tails: [z: number, tail: number, logTail: number][] = [
  [-8, 0.9999999999999993, -6.220960574271786e-16],
  [-3, 0.9986501019683699, -0.0013508099647481938],
  [-1.2, 0.8849303297782917, -0.12224636048741779],
  [-0.674, 0.7498443431596774, -0.2878896364454598],
  [-0.3, 0.6179114221889527, -0.4814101615884812],
  [0, 0.5, -0.6931471805599453],
  [0.05, 0.4800611941616275, -0.7338416953693601],
  [0.4, 0.3445782583896758, -1.0654340491895766],
  [0.6744, 0.2500285213729406, -1.386180282135383],
  [0.675, 0.249837882471777, -1.3869430415804673],
  [1, 0.15865525393145705, -1.8410216450092636],
  [1.96, 0.024997895148220435, -3.6889636517296385],
  [2.8, 0.0025551303304279342, -5.969652046675208],
  [4.2, 1.3345749015906327e-5, -11.224312649601075],
  [5.6, 1.071759025831093e-8, -18.35137949590933],
  [5.66, 7.568649751997714e-9, -18.69925115370278],
  [6.5, 4.016000583859118e-11, -23.938149495161838],
  [9, 1.1285884059538405e-19, -43.628149113332114],
  [14, 7.7935368191928e-45, -101.56303440744996],
  [22, 1.439892435145079e-107, -246.0120365373809],
  [30.5, 1.3029379131780763e-204, -469.4627373229121],
  [36.9, 2.3105244811406173e-298, -685.3328831653506],
  [60, 0.0, -1805.0135606805673],
  [1000, 0.0, -500007.82669481216],
];

test.each(tails)(
  'above %d lie the chance and logarithm that 40 digits give',
  (z, tail, logTail) => {
    if (z < 37) expect(Math.abs(normalUpperTail(z) / tail - 1)).toBeLessThan(1e-14);
    expect(Math.abs(logNormalUpperTail(z) / logTail - 1)).toBeLessThan(1e-14);
  },
);

// Source: as above.
test.each([
  [-30, 6.785889613061118e195],
  [-5, 672621.6367228793],
  [-1, 3.4770518117036944],
  [-0.3, 1.6201656087067893],
  [0, 1.2533141373155003],
  [0.5, 0.8763644564536923],
  [0.7, 0.7748938487793906],
  [1.5, 0.5158156382179634],
  [3.3, 0.2806413905555233],
  [5.5, 0.1763229857571027],
  [5.7, 0.17047376074592785],
  [7, 0.14010418345305023],
  [12, 0.08276628650136918],
  [40, 0.02498440420572057],
  [10000, 9.999999900000004e-5],
])('above %d the tail is %d times the density', (z, ratio) => {
  expect(Math.abs(normalTailRatio(z) / ratio - 1)).toBeLessThan(1e-14);
});

test('nothing lies above infinity, everything above minus infinity, and NaN stays NaN', () => {
  expect(normalUpperTail(Infinity)).toBe(0);
  expect(normalUpperTail(-Infinity)).toBe(1);
  expect(normalUpperTail(41)).toBe(0);
  expect(logNormalUpperTail(-Infinity)).toBe(-0);
  expect(normalUpperTail(NaN)).toBeNaN();
});

// Source: mpmath 1.3.0, erfinv to 40 digits.
test.each([
  [1e-300, -37.0470962993612],
  [1e-20, -9.262340089798407],
  [1e-5, -4.264890793922825],
  [0.001, -3.0902323061678136],
  [0.025, -1.9599639845400543],
  [0.1, -1.2815515655446004],
  [0.3, -0.5244005127080408],
  [0.45, -0.12566134685507402],
  [0.55, 0.12566134685507416],
  [0.8, 0.8416212335729144],
  [0.9, 1.2815515655446006],
  [0.975, 1.9599639845400538],
  [0.999, 3.090232306167813],
  [0.9999999, 5.199337582290661],
])('the share %d lies below %d', (fraction, z) => {
  expect(Math.abs(normalQuantile(fraction) - z)).toBeLessThan(2e-14 * Math.max(1, Math.abs(z)));
});

test('quantile and tail undo each other, and the two sides mirror', () => {
  fc.assert(
    fc.property(fc.double({ min: -37, max: 8, noNaN: true }), (z) => {
      expect(Math.abs(normalQuantile(normalUpperTail(-z)) - z)).toBeLessThan(
        z < 3 ? 1e-13 : 3e-16 / normalUpperTail(z + 1),
      );
    }),
  );
  expect(normalQuantile(0.25)).toBe(-normalQuantile(0.75));
  expect(Math.abs(normalQuantile(0.5))).toBeLessThan(1e-16);
});

test.each([0, 1, -0.1, 1.1, NaN])('there is no quantile of %d', (fraction) => {
  expect(() => normalQuantile(fraction)).toThrow(RangeError);
});
