import type { PailGroup } from '../../../src/core/honey/pail-group';
import {
  cylinderLeft,
  cylinderMeanLeft,
  cylinderTerms,
  wallLeft,
  wallMeanLeft,
  wallTerms,
} from './analytic-conduction';
import { allRound, first, held, MELTED, pail } from './pails';

describe('warming a pail, against the exact series', () => {
  // Carslaw & Jaeger 1959; Çengel, ch. 4: the finite cylinder is the product of cylinder and wall.
  test.each([0.1, 0.5, 1, 2, 5, 10])(
    'at Bi %d core, surface, mean and extremes stay within 0.2 %% of the first difference',
    (biot) => {
      const [radiusM, halfM] = [0.145, 0.1335];
      const film = (biot * 0.536) / radiusM;
      const cylinder = cylinderTerms(biot, 10);
      const wall = wallTerms((film * halfM) / 0.536, 10);
      const [sideM2, endsM2] = [2 * Math.PI * radiusM * 2 * halfM, 2 * Math.PI * radiusM ** 2];

      const { samples } = first({
        pails: [pail({ honey: MELTED, films: allRound(film), startC: 0 })],
        air: held(100),
        untilHours: 48,
        clearC: 100,
      });

      for (const sample of samples.slice(1)) {
        const spread = (sample.atHours * 3600 * 0.536) / (1421 * 2260);
        const [alongRadius, alongHeight] = [spread / radiusM ** 2, spread / halfM ** 2];
        const rimLeft = cylinderLeft(cylinder, 1, alongRadius) * wallLeft(wall, 1, alongHeight);
        const coreLeft = cylinderLeft(cylinder, 0, alongRadius) * wallLeft(wall, 0, alongHeight);
        const meanLeft = cylinderMeanLeft(cylinder, alongRadius) * wallMeanLeft(wall, alongHeight);
        const surfaceLeft =
          (sideM2 * cylinderLeft(cylinder, 1, alongRadius) * wallMeanLeft(wall, alongHeight) +
            endsM2 * cylinderMeanLeft(cylinder, alongRadius) * wallLeft(wall, 1, alongHeight)) /
          (sideM2 + endsM2);

        expect(Math.abs(sample.coreC - 100 * (1 - coreLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.coldestC - 100 * (1 - coreLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.meanC - 100 * (1 - meanLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.surfaceC - 100 * (1 - surfaceLeft))).toBeLessThan(0.2);
        expect(Math.abs(sample.warmestC - 100 * (1 - rimLeft))).toBeLessThan(0.2);
      }
    },
  );

  test('a drum warmed through its side alone follows the long cylinder, and so do other films', () => {
    const cylinder = cylinderTerms((8 * 0.145) / 0.536, 10);
    const wall = wallTerms((8 * 0.267) / 0.536, 10);
    const spread = (24 * 3600 * 0.536) / (1421 * 2260);
    const at24h = (films: PailGroup['films']) =>
      first({
        pails: [pail({ honey: MELTED, films, startC: 0 })],
        air: held(100),
        untilHours: 24,
        clearC: 100,
      }).samples.at(-1)!;
    const none = allRound(0);

    // One face under a film and one that passes no heat: half of a wall twice as thick.
    const fromTop = at24h({ ...none, topWPerM2K: 8 });
    const fromBelow = at24h({ ...none, bottomWPerM2K: 8 });
    const expectedC = 100 * (1 - wallLeft(wall, 0.5, spread / 0.267 ** 2));
    const coldestC = 100 * (1 - wallLeft(wall, 0, spread / 0.267 ** 2));
    const warmestC = 100 * (1 - wallLeft(wall, 1, spread / 0.267 ** 2));
    for (const sample of [fromTop, fromBelow]) {
      expect(Math.abs(sample.coreC - expectedC)).toBeLessThan(0.2);
      expect(Math.abs(sample.coldestC - coldestC)).toBeLessThan(0.2);
      expect(Math.abs(sample.warmestC - warmestC)).toBeLessThan(0.2);
      const side = 0.267 * (1 - wallMeanLeft(wall, spread / 0.267 ** 2));
      const ends = (0.145 / 2) * (warmestC + coldestC);
      expect(Math.abs(sample.surfaceC - (100 * side + ends) / (0.267 + 0.145))).toBeLessThan(0.2);
    }
    const fromSide = at24h({ ...none, sideWPerM2K: 8 });
    const sideC = 100 * (1 - cylinderLeft(cylinder, 0, spread / 0.145 ** 2));
    expect(Math.abs(fromSide.coreC - sideC)).toBeLessThan(0.2);
    expect(Math.abs(fromSide.coldestC - sideC)).toBeLessThan(0.2);
  });
});
