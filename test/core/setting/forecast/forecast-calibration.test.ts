import { seededRandom } from '../../../../src/core/random';
import { chooseCovariates } from '../../../../src/core/setting/forecast/choose-covariates';
import {
  beliefFromModel,
  fitForecastModel,
  type ForecastModel,
} from '../../../../src/core/setting/forecast/forecast-model';
import { usedTraits } from '../../../../src/core/setting/forecast/forecast-setting';
import { predictiveOf } from '../../../../src/core/setting/forecast/predictive';
import { drawnClub } from './simulated-clubs';

/** Shares of held-out batches for which what was said came true. */
type Covered = {
  asked: number;
  /** Set by the day that was named with 80 percent certainty. */
  setBy80: number;
  /** Between the two days of the central 80 percent. */
  within80: number;
  setBy95: number;
};

/** Clubs of a size, each asked about batches that it has not seen: planned, and running when not set at a look. */
function coverage(clubs: number, from: number, to: number, askedOfEach: number) {
  const counts = { planned: none(), running: none() };
  for (let k = 1; k <= clubs; k += 1) {
    const size = Math.round(from * (to / from) ** seededRandom(k)());
    const { batches, draw, random } = drawnClub(10_000 * from + k, size);
    const models = new Map<string, ForecastModel>();
    for (let asked = 0; asked < askedOfEach; asked += 1) {
      const { daysAt, profile } = draw();
      const traits = usedTraits(chooseCovariates(batches, profile));
      const model = models.get(traits.join()) ?? fitForecastModel(batches, traits);
      models.set(traits.join(), model);
      const { logNotSet } = predictiveOf(beliefFromModel(model, profile), 0);
      const look = 4 + 16 * random();
      const notSetAtLook = logNotSet(look);
      // One time by chance from each fifth of the batches like it: as fair as five by chance, and steadier.
      for (let fifth = 0; fifth < 5; fifth += 1) {
        const time = daysAt((fifth + random()) / 5);
        const notSet = logNotSet(time);
        count(counts.planned, -Math.expm1(notSet));
        if (time > look) count(counts.running, -Math.expm1(notSet - notSetAtLook));
      }
    }
  }
  return { planned: shares(counts.planned), running: shares(counts.running) };
}

function none(): Covered {
  return { asked: 0, setBy80: 0, within80: 0, setBy95: 0 };
}

/** `said` is the certainty that was given to a day no later than that on which it set. */
function count(covered: Covered, said: number): void {
  covered.asked += 1;
  if (said < 0.8) covered.setBy80 += 1;
  if (said > 0.1 && said < 0.9) covered.within80 += 1;
  if (said < 0.95) covered.setBy95 += 1;
}

function shares({ asked, setBy80, within80, setBy95 }: Covered): Covered {
  return {
    asked,
    setBy80: setBy80 / asked,
    within80: within80 / asked,
    setBy95: setBy95 / asked,
  };
}

// Both "set by" with 80 percent certainty and the central 80 percent, over clubs that are drawn with other spreads than are likely
// beforehand (see drawnClub), each size by itself so that small clubs do not hide behind large ones.
test.each([
  { clubs: 200, from: 5, to: 10, asked: 2 },
  { clubs: 80, from: 10, to: 30, asked: 3 },
  { clubs: 30, from: 30, to: 200, asked: 4 },
])(
  'what is said with 80 percent certainty comes true for about 80 in a hundred: clubs of $from to $to batches',
  ({ clubs, from, to, asked }) => {
    const { planned, running } = coverage(clubs, from, to, asked);

    for (const { setBy80, within80, setBy95 } of [planned, running]) {
      expect(setBy80).toBeGreaterThan(0.76);
      expect(setBy80).toBeLessThan(0.84);
      expect(within80).toBeGreaterThan(0.76);
      expect(within80).toBeLessThan(0.84);
      expect(setBy95).toBeGreaterThan(0.92);
      expect(setBy95).toBeLessThan(0.98);
    }
    expect(running.asked).toBeGreaterThan(300);
  },
);
