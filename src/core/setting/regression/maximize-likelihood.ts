import { at } from '../at';
import { factorPositiveDefinite, solveFactored, type Factor } from '../numerics/positive-definite';
import type { DesignRows } from './design';
import type { ErrorLaw } from './error-law';
import { evaluateLikelihood, type LikelihoodState } from './likelihood';

export type Ascent =
  | { kind: 'maximum'; state: LikelihoodState; factor: Factor; iterations: number }
  /** The likelihood grows without end along `direction`: no maximum. Where the scale goes is said. */
  | { kind: 'rising'; direction: Float64Array; scale: 'shrinking' | 'growing' | 'steady' };

const MOST_ITERATIONS = 200;
const MOST_HALVINGS = 50;
/** Twice what the log-likelihood can still gain, when one more step ends the search. */
const LAST_GAIN = 1e-12;
/** So little to gain while a row's place still moves by so much: the top is infinitely far away. */
const SMALL_GAIN = 1e-9;
const FAR_MOVE = 0.02;
/** A scale that has changed by this factor does not come back. */
const RUNAWAY = 1e5;
/** A relative change this small is none. */
const STILL = 1e-3;
const ROUNDING = 1e-13;

/**
 * Climbs from `start` to the maximum of a concave log-likelihood by Newton's method with halved steps.
 *
 * Being concave it has one maximum or none. None shows in that hardly anything is left to gain and
 * the steps yet do not shrink, or in a scale that leaves every reasonable range.
 * Source: J. Burridge (see evaluateLikelihood); S. Boyd and L. Vandenberghe, "Convex Optimization"
 * (2004), section 9.5.
 */
export function maximizeLikelihood(
  law: ErrorLaw,
  rows: DesignRows,
  penalty: Float64Array,
  start: Float64Array,
): Ascent {
  const { width } = rows;
  let state = evaluateLikelihood(law, rows, penalty, start);
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations += 1) {
    const { factor, shaky } = factorSafely(state.information, width + 1);
    const step = solveFactored(factor, state.gradient);
    const gain = step.reduce((sum, part, j) => sum + part * at(state.gradient, j), 0);
    const change = at(state.point, width) / at(start, width);
    const far = gain < SMALL_GAIN && (shaky || farthestMove(rows, step) > FAR_MOVE);
    if (far || change > RUNAWAY || change < 1 / RUNAWAY) {
      const going = far ? at(step, width) / at(state.point, width) : Math.log(change);
      const scale = going > STILL ? 'shrinking' : going < -STILL ? 'growing' : 'steady';
      return { kind: 'rising', direction: step, scale };
    }

    const next = climb(law, rows, penalty, state, step);
    if (next === null || gain < LAST_GAIN) {
      const top = next ?? state;
      const { factor: atTop } = factorSafely(top.information, width + 1);
      return { kind: 'maximum', state: top, factor: atTop, iterations };
    }
    state = next;
  }
  return { kind: 'rising', direction: state.gradient, scale: 'steady' };
}

/** The factor of the information; when rounding has left it singular, of one slightly enlarged. */
function factorSafely(information: Float64Array, size: number): { factor: Factor; shaky: boolean } {
  for (let enlargement = 0; enlargement < 1e12; enlargement = Math.max(1e-12, enlargement * 100)) {
    const enlarged = Float64Array.from(information);
    for (let j = 0; j < size; j += 1) {
      const cell = j * size + j;
      enlarged[cell] = at(information, cell) * (1 + enlargement) + enlargement * 1e-200;
    }
    const factor = factorPositiveDefinite(enlarged, size, 1e-15);
    if (!('dependentColumn' in factor)) return { factor, shaky: enlargement > 0 };
  }
  throw new RangeError('information must hold finite numbers');
}

/** How far the step moves the end of a row that it moves most. */
function farthestMove({ columns, width, place, span }: DesignRows, step: Float64Array): number {
  const inverseScale = at(step, width);
  let farthest = 0;
  for (let i = 0; i < place.length; i += 1) {
    let move = inverseScale * at(place, i);
    for (let j = 0; j < width; j += 1) move -= at(columns, i * width + j) * at(step, j);
    const endMove = move + inverseScale * at(span, i);
    farthest = Math.max(farthest, Math.abs(move), Math.abs(endMove));
  }
  return farthest;
}

/** The first of the step and its halves that leads no lower; null when none does. */
function climb(
  law: ErrorLaw,
  rows: DesignRows,
  penalty: Float64Array,
  state: LikelihoodState,
  step: Float64Array,
): LikelihoodState | null {
  const [inverseScale, change] = [at(state.point, rows.width), at(step, rows.width)];
  let share = change < 0 ? Math.min(1, (0.9 * inverseScale) / -change) : 1;
  for (let halving = 0; halving < MOST_HALVINGS; halving += 1) {
    const point = state.point.map((value, j) => value + share * at(step, j));
    const next = evaluateLikelihood(law, rows, penalty, point);
    if (next.value >= state.value - ROUNDING * Math.abs(state.value)) return next;
    share /= 2;
  }
  return null;
}
