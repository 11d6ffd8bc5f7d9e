import type { SpeedRatio } from './speed-ratio';

/**
 * A speed ratio as a member would say it: "lime sets 1.6 times as fast as clover, 95 % 1.2 to 2.1";
 * the other way round "takes 1.6 times as long as"; and where the limits hold 1, that the data cannot
 * tell the two apart, and how far apart they may be either way.
 */
export function speedInWords(subject: string, other: string, speed: SpeedRatio): string {
  const { ratio, lower, upper, confidenceLevel } = speed;
  const percent = `${inWords(confidenceLevel * 100)} %`;
  if (lower > 1) {
    return `${subject} sets ${factor(ratio)} times as fast as ${other}, ${percent} ${factor(lower)} to ${factor(upper)}`;
  }
  if (upper < 1) {
    return `${subject} takes ${factor(1 / ratio)} times as long as ${other}, ${percent} ${factor(1 / upper)} to ${factor(1 / lower)}`;
  }
  return `${subject} and ${other} cannot be told apart: ${percent} from ${factor(upper)} times as fast to ${factor(1 / lower)} times as long`;
}

/** Two significant digits, three where two would hide that it is not 1. */
function factor(value: number): string {
  if (value < 1.095) return value.toFixed(2);
  return value < 9.95 ? value.toFixed(1) : value.toFixed(0);
}

function inWords(percent: number): string {
  return String(Math.round(percent * 10) / 10);
}
