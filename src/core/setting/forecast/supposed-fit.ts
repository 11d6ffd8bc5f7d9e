import { at } from '../at';
import { factorPositiveDefinite, solveFactored, type Factor } from '../numerics/positive-definite';
import type { DesignRows } from '../regression/design';
import type { ErrorLaw } from '../regression/error-law';
import { evaluateLikelihood, type LikelihoodState } from '../regression/likelihood';

export type SupposedFit = {
  /** Coefficients divided by the scale. */
  ratios: Float64Array;
  /** Of their information. */
  factor: Factor;
  /** Log of the likelihood with the coefficients averaged out, by Laplace's integral. */
  logEvidence: number;
};

const MOST_ITERATIONS = 60;
const MOST_HALVINGS = 40;
/** Twice what the log-likelihood can still gain, below which the last step is taken unseen: it leaves its square. */
const LAST_GAIN = 1e-3;

/**
 * The most likely coefficients when the scale is supposed known and each coefficient is believed to
 * be normal about 0 with its own `deviation`, and how well that foretells what was seen.
 *
 * Newton's method with halved steps on a strictly concave function: there is always one maximum, also
 * with no batch at all. Laplace's integral: L. Tierney and J. B. Kadane, "Accurate approximations for
 * posterior moments and marginal densities", J. Amer. Statist. Assoc. 81 (1986).
 */
export function fitSupposing(
  law: ErrorLaw,
  rows: DesignRows,
  supposed: { scale: number; deviations: Float64Array; start: Float64Array },
): SupposedFit {
  const { width } = rows;
  const { scale, deviations, start } = supposed;
  const penalty = deviations.map((deviation) => (scale / deviation) ** 2);
  const logPenalties = penalty.reduce((sum, held) => sum + Math.log(held), 0);
  const whole = new Float64Array(width + 1);
  whole.set(start);
  whole[width] = 1 / scale;
  let state = evaluateLikelihood(law, rows, penalty, whole);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration += 1) {
    const factor = factorOf(state, width);
    const gradient = state.gradient.subarray(0, width);
    const step = solveFactored(factor, gradient);
    const gain = step.reduce((sum, part, j) => sum + part * at(gradient, j), 0);
    const next = gain < LAST_GAIN ? null : climb(law, rows, penalty, state, step);
    if (next === null) {
      return {
        ratios: step.map((part, j) => at(state.point, j) + part),
        factor,
        logEvidence: state.value + (gain + logPenalties - factor.logDeterminant) / 2,
      };
    }
    state = next;
  }
  throw new RangeError('observations must be such that times of days to years can be behind them');
}

function factorOf({ information }: LikelihoodState, width: number): Factor {
  const size = width + 1;
  const own = Float64Array.from({ length: width * width }, (_, cell) =>
    at(information, Math.floor(cell / width) * size + (cell % width)),
  );
  const factor = factorPositiveDefinite(own, width, 1e-15);
  if ('dependentColumn' in factor) throw new RangeError('deviations must be above 0 and finite');
  return factor;
}

/** The first of the step and its halves that leads higher; null when none does. */
function climb(
  law: ErrorLaw,
  rows: DesignRows,
  penalty: Float64Array,
  state: LikelihoodState,
  step: Float64Array,
): LikelihoodState | null {
  let share = 1;
  for (let halving = 0; halving < MOST_HALVINGS; halving += 1) {
    const point = Float64Array.from(state.point);
    step.forEach((part, j) => {
      point[j] = at(point, j) + share * part;
    });
    const next = evaluateLikelihood(law, rows, penalty, point);
    if (next.value >= state.value) return next;
    share /= 2;
  }
  return null;
}
