import { hourMs, minuteMs, type BatchRecord } from './records';
import { warmedCore } from './warmed-core';

export interface ProbeReading {
  at: Date;
  temperatureC: number;
}

const everyMs = 10 * minuteMs;
/** A pail that cools: so long until two thirds of the difference are gone. */
const coolingHours = 14;
const roomC = 18;
const usualAirC = 42;

/**
 * What a probe in the core of a pail would have logged every ten minutes from loading until the honey was cool, or until `now`: so that it
 * agrees with the temperatures written down at the steps. Empty where the batch was not loaded, or its temperature not read.
 */
export function coreLogOf({ honey, steps, bookings }: BatchRecord, now: Date): ProbeReading[] {
  const step = (kind: string) => steps.find((one) => one.kind === kind);
  const [loaded, cleared, cooled] = [step('loaded'), step('cleared'), step('cooled')];
  if (loaded?.temperatureC === undefined) return [];
  const startMs = loaded.at.getTime();
  const outMs = cleared?.at.getTime() ?? now.getTime();
  const lastMs = Math.min(now.getTime(), cooled?.at.getTime() ?? outMs);
  if (lastMs <= startMs) return [];

  const warm = bookings.find(({ duty }) => duty === 'warm');
  const endC = cleared?.temperatureC;
  const warmedC = warmedCore({
    massKg: Math.max(...honey.map(({ massG }) => massG)) / 1000,
    startC: loaded.temperatureC,
    airC: warm === undefined ? usualAirC : (warm.minC + warm.maxC) / 2,
    hours: (outMs - startMs) / hourMs,
    endC,
  });
  const outC = endC ?? warmedC((outMs - startMs) / hourMs);
  const coolC = cooled?.temperatureC ?? roomC;
  const coolTime =
    coolC <= roomC
      ? coolingHours * hourMs
      : (lastMs - outMs) / Math.log((outC - roomC) / (coolC - roomC));
  const coreC = (ms: number) =>
    ms <= outMs
      ? warmedC((ms - startMs) / hourMs)
      : roomC + (outC - roomC) * Math.exp(-(ms - outMs) / coolTime);

  const readings: ProbeReading[] = [];
  for (let ms = startMs; ms <= lastMs; ms += everyMs) {
    readings.push({ at: new Date(ms), temperatureC: Math.round(coreC(ms) * 10) / 10 });
  }
  return readings;
}
