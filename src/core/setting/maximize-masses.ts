import { at } from './at';
import {
  coverProbabilities,
  logLikelihood,
  maximumViolation,
  relativeGains,
  type Covers,
  type MassState,
} from './covers';
import { newtonTarget } from './newton-target';

const VIOLATION_SOUGHT = 1e-12;
const VIOLATION_OF_ROUNDING = 1e-9;
const SMALLEST_MASS = 1e-10;
const SMALLEST_SHARE = 1e-12;
const MOST_ROUNDS = 500;

/**
 * The masses of the candidates that make the covers most likely.
 *
 * Constrained Newton with a growing and shrinking support: each round takes the candidates that
 * hold mass and, between each two of them, the one where mass would gain most; solves the
 * second-order problem on these; goes towards its solution as far as the likelihood grows.
 * Converges quadratically at the end. Sources: see newtonTarget. `start` are masses that give every
 * cover a probability; without them, the fewest equal masses that do.
 */
export function maximizeMasses(covers: Covers, start: Float64Array | null): MassState {
  let state = evaluate(covers, start ?? stabbingMasses(covers));
  state = evaluate(covers, shareAnew(state));
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    if (state.kktMaxViolation < VIOLATION_SOUGHT) break;
    const working = workingSet(state);
    const target = newtonTarget(covers, state, working);
    const next = climb(covers, state, target);
    const stalled = next.kktMaxViolation >= state.kktMaxViolation;
    const noWayUp = next === state;
    if (noWayUp || (stalled && state.kktMaxViolation < VIOLATION_OF_ROUNDING)) break;
    state = next;
  }

  const tidy = evaluate(covers, withoutTraces(state.masses));
  const tidyIsAsGood =
    tidy.kktMaxViolation <= Math.max(state.kktMaxViolation, VIOLATION_OF_ROUNDING);
  return tidyIsAsGood ? tidy : state;
}

function evaluate(covers: Covers, masses: Float64Array): MassState {
  const probabilities = coverProbabilities(covers, masses);
  const gains = relativeGains(covers, probabilities);
  return {
    masses,
    probabilities,
    gains,
    logLik: logLikelihood(covers, probabilities),
    kktMaxViolation: maximumViolation(gains, masses),
  };
}

/** Equal masses on the fewest candidates of which every cover holds at least one. */
function stabbingMasses(covers: Covers): Float64Array {
  const latestFirst = new Float64Array(covers.candidates).fill(-1);
  for (let i = 0; i < covers.weight.length; i += 1) {
    const last = at(covers.last, i);
    latestFirst[last] = Math.max(at(latestFirst, last), at(covers.first, i));
  }
  const masses = new Float64Array(covers.candidates);
  let stabbed = -1;
  for (let j = 0; j < covers.candidates; j += 1) {
    if (at(latestFirst, j) > stabbed) {
      masses[j] = 1;
      stabbed = j;
    }
  }
  normalize(masses);
  return masses;
}

/** One step of expectation-maximization: each batch shared over its candidates as masses say. */
function shareAnew({ masses, gains }: MassState): Float64Array {
  const shared = new Float64Array(masses.length);
  for (let j = 0; j < shared.length; j += 1) shared[j] = at(masses, j) * (1 + at(gains, j));
  return shared;
}

function workingSet({ masses, gains }: MassState): Float64Array {
  const working: number[] = [];
  let best = -1;
  for (let j = 0; j < masses.length; j += 1) {
    if (at(masses, j) > 0) {
      if (best >= 0) working.push(best);
      working.push(j);
      best = -1;
    } else if (at(gains, j) > (best >= 0 ? at(gains, best) : 0)) {
      best = j;
    }
  }
  if (best >= 0) working.push(best);
  return new Float64Array(working);
}

/** The state on the way to the target, halving the way until the likelihood grows enough. */
function climb(covers: Covers, state: MassState, target: Float64Array): MassState {
  const { masses, gains, logLik } = state;
  let slope = 0;
  for (let j = 0; j < masses.length; j += 1) {
    slope += at(gains, j) * (at(target, j) - at(masses, j)) * covers.totalWeight;
  }
  const rounding = 8 * Number.EPSILON * (covers.totalWeight + Math.abs(logLik));
  for (let share = 1; share > SMALLEST_SHARE; share /= 2) {
    const moved = new Float64Array(masses.length);
    for (let j = 0; j < moved.length; j += 1) {
      moved[j] = at(masses, j) + share * (at(target, j) - at(masses, j));
    }
    normalize(moved);
    const next = evaluate(covers, moved);
    if (next.logLik >= logLik + (share * slope) / 3 - rounding) return next;
  }
  return state;
}

/** The masses less those that are nothing but rounding. */
function withoutTraces(masses: Float64Array): Float64Array {
  const kept = new Float64Array(masses.length);
  for (let j = 0; j < kept.length; j += 1) {
    kept[j] = at(masses, j) < SMALLEST_MASS ? 0 : at(masses, j);
  }
  normalize(kept);
  return kept;
}

function normalize(masses: Float64Array): void {
  let sum = 0;
  for (const mass of masses) sum += mass;
  for (let j = 0; j < masses.length; j += 1) masses[j] = at(masses, j) / sum;
}
