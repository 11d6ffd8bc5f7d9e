import { loggedAt, type TemperatureAt } from '../src/core/honey/air-plan';
import { warmPails } from '../src/core/honey/warm-pails';
import { usualPail } from '../src/reckonings/usual-pail';

const usualMoisturePercent = 17.4;
const largestPailKg = 25;
/** W/m²·K: from a cabinet stuffed full to one with a strong fan. */
const films = { usual: 5, least: 1, most: 40 };
/** Halvings of the span between the two: to a thousandth. */
const halvings = 12;
const everyHours = 1 / 6;

export interface WarmedPail {
  massKg: number;
  startC: number;
  /** At which the cabinet is held. */
  airC: number;
  hours: number;
  /** Of the core when it was taken out; undefined: it is still warming. */
  endC: number | undefined;
}

/**
 * The core of a pail by hours since it was loaded: in a cabinet whose air carries as much heat to it as takes it to the temperature at which
 * it was taken out.
 */
export function warmedCore(pail: WarmedPail): (atHours: number) => number {
  const course = courseWith(pail, pail.endC === undefined ? films.usual : filmTo(pail, pail.endC));
  return (atHours) => loggedAt(course, atHours);
}

function filmTo(pail: WarmedPail, endC: number): number {
  let [least, most] = [films.least, films.most];
  for (let halving = 0; halving < halvings; halving += 1) {
    const between = Math.sqrt(least * most);
    const reachedC = courseWith(pail, between, pail.hours).at(-1)?.temperatureC ?? 0;
    if (reachedC < endC) least = between;
    else most = between;
  }
  return most;
}

function courseWith(
  { massKg, startC, airC, hours }: WarmedPail,
  film: number,
  sampleEveryHours = everyHours,
): TemperatureAt[] {
  const usual = usualPail(Math.min(largestPailKg, massKg), usualMoisturePercent, startC);
  const { groups } = warmPails({
    pails: [
      {
        ...usual,
        count: 1,
        films: { sideWPerM2K: film, topWPerM2K: film, bottomWPerM2K: film },
      },
    ],
    air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: airC }] },
    untilHours: hours,
    sampleEveryHours,
  });
  return (groups[0]?.samples ?? []).map(({ atHours, coreC }) => ({
    atHours,
    temperatureC: coreC,
  }));
}
