import { hourMs, minuteMs, type BatchRecord } from './records';

export interface ProbeReading {
  at: Date;
  temperatureC: number;
}

const everyMs = 10 * minuteMs;
/** Of hard-set honey in a pail of 25 kg, about which the cabinet's air is warmer: so long until two thirds of the difference are gone. */
const warmingHours = 14;
const aboveLastC = 2;
const roomC = 18;

/**
 * What a probe in the core of a pail would have logged every ten minutes from loading until the honey was cool, or until `now`: so that it
 * agrees with the temperatures written down at the steps. Empty where the batch was not loaded, or its temperature not read.
 */
export function coreLogOf({ steps, bookings }: BatchRecord, now: Date): ProbeReading[] {
  const step = (kind: string) => steps.find((one) => one.kind === kind);
  const [loaded, cleared, cooled] = [step('loaded'), step('cleared'), step('cooled')];
  if (loaded?.temperatureC === undefined) return [];
  const warm = bookings.find(({ duty }) => duty === 'warm');
  const bookedC = warm === undefined ? 42 : (warm.minC + warm.maxC) / 2;
  const endC = cleared?.temperatureC;
  const airC = endC === undefined ? bookedC : endC + aboveLastC;
  const outMs = cleared?.at.getTime() ?? now.getTime();
  const lastMs = Math.min(now.getTime(), cooled?.at.getTime() ?? outMs);

  const startMs = loaded.at.getTime();
  const startC = loaded.temperatureC;
  const warmTime =
    endC === undefined
      ? warmingHours * hourMs
      : (outMs - startMs) / Math.log((airC - startC) / aboveLastC);
  const coolC = cooled?.temperatureC ?? roomC;
  const coolTime =
    endC === undefined || coolC <= roomC
      ? warmingHours * hourMs
      : (lastMs - outMs) / Math.log((endC - roomC) / (coolC - roomC));
  const coreC = (ms: number) =>
    ms <= outMs
      ? airC - (airC - startC) * Math.exp(-(ms - startMs) / warmTime)
      : roomC + ((endC ?? airC) - roomC) * Math.exp(-(ms - outMs) / coolTime);

  const readings: ProbeReading[] = [];
  for (let ms = startMs; ms <= lastMs; ms += everyMs) {
    readings.push({ at: new Date(ms), temperatureC: Math.round(coreC(ms) * 10) / 10 });
  }
  return readings;
}
