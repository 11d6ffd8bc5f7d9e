/** A temperature that a probe read, at a time in epoch milliseconds. */
export interface ProbeReading {
  probeId: string;
  atMs: number;
  temperatureC: number;
}

export interface ReadSpan {
  /** In any order; of one probe or of several in the same place. Those outside the span help at its ends. */
  readings: readonly ProbeReading[];
  fromMs: number;
  untilMs: number;
  /** Between two readings further apart nobody knows what happened. */
  longestGapMs: number;
  /** From 0 to 1: where readings tell less of the span than this, there is no mean of it. */
  leastCoveredFraction: number;
}

export interface MeanTemperature {
  meanC: number;
  /** The coldest and the warmest that any probe showed within the covered part of the span. */
  minC: number;
  maxC: number;
  /** How much of the span readings tell, from 0 to 1. */
  coveredFraction: number;
}

/** Wider gaps than six hours hide a warm afternoon: the limit that this service takes for cool rooms and cabinets (own choice). */
export const LONGEST_GAP_MS = 6 * 3_600_000;

/** Half of a span must be told of (own choice). */
export const LEAST_COVERED_FRACTION = 0.5;

/** A straight line between two readings of one probe, cut to the span. */
interface Line {
  fromMs: number;
  untilMs: number;
  fromC: number;
  perMs: number;
}

/**
 * How warm was it over a span, by the readings of one or several probes?
 *
 * Each probe is taken to have changed evenly from one reading to the next (the trapezoidal rule). At each moment the mean is that of
 * the probes that tell of it; the mean of the span weights each moment alike, however often it was read. Two readings further apart
 * than `longestGapMs` have nothing between them, and a single reading tells of no time at all.
 * Range: any temperatures; the span [fromMs, untilMs) longer than 0, `longestGapMs` above 0, `leastCoveredFraction` 0 to 1.
 * Null where readings cover less than that fraction of the span, or nothing of it: that is too little, not an error.
 * Example: 10 °C at 0 h and 20 °C at 4 h, over 0 to 4 h: mean 15, min 10, max 20, covered 1.
 *
 * @throws RangeError outside that range, or for a reading that is no number.
 */
export function meanTemperature(span: ReadSpan): MeanTemperature | null {
  const { fromMs, untilMs, longestGapMs, leastCoveredFraction } = span;
  if (!Number.isFinite(fromMs) || !Number.isFinite(untilMs) || !(fromMs < untilMs)) {
    throw new RangeError('untilMs must be after fromMs');
  }
  if (!(longestGapMs > 0)) throw new RangeError('longestGapMs must be above 0');
  if (!(leastCoveredFraction >= 0 && leastCoveredFraction <= 1)) {
    throw new RangeError('leastCoveredFraction must be from 0 to 1');
  }

  const lines = linesOf(span);
  const { coveredMs, sumCMs } = sweep(lines);
  const coveredFraction = coveredMs / (untilMs - fromMs);
  if (coveredMs === 0 || coveredFraction < leastCoveredFraction) return null;
  let [minC, maxC] = [Infinity, -Infinity];
  for (const line of lines) {
    const untilC = line.fromC + line.perMs * (line.untilMs - line.fromMs);
    minC = Math.min(minC, line.fromC, untilC);
    maxC = Math.max(maxC, line.fromC, untilC);
  }
  return { meanC: sumCMs / coveredMs, minC, maxC, coveredFraction };
}

function linesOf({ readings, fromMs, untilMs, longestGapMs }: ReadSpan): Line[] {
  const byProbe = new Map<string, ProbeReading[]>();
  for (const reading of readings) {
    if (!Number.isFinite(reading.atMs) || !Number.isFinite(reading.temperatureC)) {
      throw new RangeError('atMs and temperatureC of a reading must be numbers');
    }
    const others = byProbe.get(reading.probeId);
    if (others === undefined) byProbe.set(reading.probeId, [reading]);
    else others.push(reading);
  }
  const lines: Line[] = [];
  for (const ofProbe of byProbe.values()) {
    ofProbe.sort((one, other) => one.atMs - other.atMs);
    ofProbe.slice(1).forEach((after, index) => {
      const before = ofProbe[index] as ProbeReading;
      const gapMs = after.atMs - before.atMs;
      const startMs = Math.max(before.atMs, fromMs);
      const endMs = Math.min(after.atMs, untilMs);
      if (gapMs > longestGapMs || startMs >= endMs) return;
      const perMs = (after.temperatureC - before.temperatureC) / gapMs;
      const fromC = before.temperatureC + perMs * (startMs - before.atMs);
      lines.push({ fromMs: startMs, untilMs: endMs, fromC, perMs });
    });
  }
  return lines.sort((one, other) => one.fromMs - other.fromMs);
}

/** Goes through time from one end of a line to the next: in between, the same probes tell, and their mean is a straight line. */
function sweep(lines: readonly Line[]): { coveredMs: number; sumCMs: number } {
  const bounds = [...new Set(lines.flatMap((line) => [line.fromMs, line.untilMs]))].sort(
    (one, other) => one - other,
  );
  let [coveredMs, sumCMs, next] = [0, 0, 0];
  let telling: Line[] = [];
  bounds.slice(1).forEach((endMs, index) => {
    const startMs = bounds[index] as number;
    telling = telling.filter((line) => line.untilMs > startMs);
    for (let line = lines[next]; line !== undefined && line.fromMs <= startMs; line = lines[next]) {
      telling.push(line);
      next += 1;
    }
    if (telling.length === 0) return;
    const middleMs = (startMs + endMs) / 2;
    const atMiddle = telling.map((line) => line.fromC + line.perMs * (middleMs - line.fromMs));
    const meanC = atMiddle.reduce((sum, temperatureC) => sum + temperatureC, 0) / telling.length;
    coveredMs += endMs - startMs;
    sumCMs += meanC * (endMs - startMs);
  });
  return { coveredMs, sumCMs };
}
