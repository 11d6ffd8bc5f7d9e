import { CLEAR_C, moistureAssumed, USUAL_MOISTURE_PERCENT, type Assumed } from './assumptions';
import { honeyOf } from './honey-and-seed';
import { loggedBetween } from './logged-heat';
import type { LoggedRow } from './logged-rows';
import { pailOfBatch } from './pail-of-batch';
import { NotKnown } from './reckoned';
import type { ReckoningRow, WarmingBooking } from './reckoning-row';
import type { WarmingFitTask } from './warming-fit.worker';
import { meltingAssumed, pailAssumed, startAndGrainAssumed } from './warming-reckoning';

const HOUR_MS = 3_600_000;
export const LONGEST_HOURS = 240;

/** From loading until it was taken out, by its booking at the latest: so long the pail stood in air of which something is known. */
export interface WarmedSpan {
  fromMs: number;
  untilMs: number;
  booking: WarmingBooking;
}

/** When a batch was warmed, or why nothing tells. */
export function warmedSpan({ honey, steps, warmings }: ReckoningRow): WarmedSpan | NotKnown {
  if (honey.length === 0) return new NotKnown('No honey is meant for the batch.');
  const [first, ...later] = steps.map(({ kind, at }) => ({ kind, atMs: Date.parse(at) }));
  if (first?.kind !== 'loaded') {
    return new NotKnown(
      'That the batch was loaded is not on record, so nothing of its warming is.',
    );
  }
  const [out] = later;
  if (out === undefined) {
    return new NotKnown('The batch is still being warmed: ask again when it is out of the warmth.');
  }
  const fromMs = first.atMs;
  const booking = warmings.find(
    ({ startsAt, endsAt }) => Date.parse(startsAt) < out.atMs && Date.parse(endsAt) > fromMs,
  );
  if (booking === undefined) {
    return new NotKnown(
      'No warming was booked for the time that the batch was warmed, so nothing tells how warm the air about it was.',
    );
  }
  const untilMs = Math.min(out.atMs, Date.parse(booking.endsAt), fromMs + LONGEST_HOURS * HOUR_MS);
  return { fromMs, untilMs, booking };
}

/** A warming as the fit takes it, and what is to be said of it. */
export interface WarmingLogOfBatch {
  task: WarmingFitTask;
  probe: LoggedRow;
  air: { basis: 'logged' | 'set-point'; meanC: number; setC: number };
  assumptions: Assumed[];
}

/**
 * What probes logged of that warming, as the fit takes it.
 *
 * @throws RangeError for a moisture that the sources do not cover.
 */
export function warmingLog(
  row: ReckoningRow,
  { fromMs, untilMs, booking }: WarmedSpan,
  logged: readonly LoggedRow[],
): WarmingLogOfBatch | NotKnown {
  const [probe, ...others] = logged
    .filter(({ place }) => place === 'honey')
    .sort((one, other) => other.points.length - one.points.length);
  if (probe === undefined) {
    return new NotKnown(
      'No probe in its honey logged anything while the batch was warmed: put one into the middle of a pail the next time.',
    );
  }
  const moisturePercent = honeyOf(row).exactPercent;
  const { pail, massKg, airC, startIsKnown } = pailOfBatch(
    { ...row, warmings: [booking] },
    moisturePercent ?? USUAL_MOISTURE_PERCENT,
  );
  const hours = (atMs: number) => (atMs - fromMs) / HOUR_MS;
  const airLogged = loggedBetween(fromMs, untilMs, airOf(logged))?.map(
    ({ atMs, temperatureC }) => ({
      atHours: hours(atMs),
      temperatureC,
    }),
  );
  const untilHours = hours(untilMs);
  // Beyond the log, as it is meant to be.
  const afterwards = [untilHours + 0.25, untilHours + 1].map((atHours) => ({
    atHours,
    temperatureC: airC,
  }));
  return {
    task: {
      pail,
      coreReadings: probe.points.map(({ at, meanDeciC }) => ({
        atHours: hours(Date.parse(at)),
        temperatureC: meanDeciC / 10,
      })),
      airReadings: [...(airLogged ?? [{ atHours: 0, temperatureC: airC }]), ...afterwards],
      clearC: CLEAR_C,
      mostHours: LONGEST_HOURS,
    },
    probe,
    air: {
      basis: airLogged === undefined ? 'set-point' : 'logged',
      meanC: airLogged === undefined ? airC : meanOf(airLogged),
      setC: airC,
    },
    assumptions: [
      airTaken(airLogged !== undefined, airC),
      probeTaken(others.length),
      pailAssumed(massKg),
      meltingAssumed,
      ...(moisturePercent === null ? [moistureAssumed] : []),
      ...startAndGrainAssumed(row.sources, startIsKnown),
      ...gathered(probe),
    ],
  };
}

function airOf(logged: readonly LoggedRow[]) {
  return logged
    .filter(({ place }) => place === 'air')
    .flatMap(({ probeId, points }) =>
      points.map(({ at, meanDeciC }) => ({ probeId, at, temperatureC: meanDeciC / 10 })),
    );
}

/** Weighted by time: the trapezoidal rule. */
function meanOf(readings: readonly { atHours: number; temperatureC: number }[]): number {
  let [sum, whole] = [0, 0];
  readings.slice(1).forEach((after, index) => {
    const before = readings[index] as (typeof readings)[number];
    const hours = after.atHours - before.atHours;
    sum += (hours * (before.temperatureC + after.temperatureC)) / 2;
    whole += hours;
  });
  return sum / whole;
}

const OWN_CHOICE = 'own choice';
const MIDDLE_IS_LAST = 'conduction in a cylinder: the middle is the last to get warm';

function airTaken(isLogged: boolean, airC: number): Assumed {
  return {
    text: isLogged
      ? `The air about the pail was as a probe in the station logged it; the next warming is reckoned in the same air, and after the log at ${airC} °C, the middle of what was booked.`
      : `No probe logged the air for nearly all of the warming: it is taken to have been ${airC} °C from loading on, the middle of what was booked. Where the cabinet took its time to get warm, or was opened, the pail itself is faster than this says.`,
    source: OWN_CHOICE,
  };
}

function probeTaken(others: number): Assumed {
  const more =
    others === 0
      ? ''
      : ' Further probes in its honey are left out: the one that tells most of the time is taken.';
  return {
    text: `The probe stood in the middle of a pail, halfway up, from loading on. Nearer to the wall it shows a pail that is faster than it is.${more}`,
    source: MIDDLE_IS_LAST,
  };
}

function gathered({ readings, points }: LoggedRow): Assumed[] {
  if (points.length === readings) return [];
  return [
    {
      text: `The ${readings} readings were gathered into ${points.length} means over equal times, which is as much as the fit is given.`,
      source: OWN_CHOICE,
    },
  ];
}
