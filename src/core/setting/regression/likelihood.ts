import { at } from '../at';
import type { DesignRows } from './design';
import { emptyKernel, type ErrorLaw } from './error-law';

/**
 * A log-likelihood at a point, its gradient and its information (the matrix of second derivatives
 * with the sign changed; entries on and below the diagonal).
 *
 * A point is the coefficients divided by the scale, then 1 / scale. In these the place of a row,
 * (1 / scale) x log time - its columns x coefficients / scale, is linear, and the log-likelihood
 * concave.
 */
export type LikelihoodState = {
  point: Float64Array;
  value: number;
  gradient: Float64Array;
  information: Float64Array;
};

/**
 * The log-likelihood of a point, on the scale of the logarithm of time. Each column's coefficient is
 * held towards 0 by half of its `penalty` x its square; none where the penalty is 0.
 *
 * Source of the concavity: J. Burridge, "A note on maximum likelihood estimation for regression
 * models using grouped data", J. R. Statist. Soc. B 43 (1981).
 */
export function evaluateLikelihood(
  law: ErrorLaw,
  rows: DesignRows,
  penalty: Float64Array,
  point: Float64Array,
): LikelihoodState {
  const { columns, width, place, span, weight, ends } = rows;
  const size = width + 1;
  const inverseScale = at(point, width);
  const gradient = new Float64Array(size);
  const information = new Float64Array(size * size);
  const kernel = emptyKernel();
  let value = 0;
  let scaleGradient = 0;
  let scaleInformation = 0;
  let exactWeight = 0;

  for (let i = 0; i < weight.length; i += 1) {
    const first = i * width;
    const times = at(weight, i);
    const logTime = at(place, i);
    let z = inverseScale * logTime;
    for (let j = 0; j < width; j += 1) z -= at(columns, first + j) * at(point, j);

    const length = at(span, i);
    if (i < ends.exact) {
      law.exact(z, kernel);
      exactWeight += times;
    } else if (i < ends.interval) law.interval(z, inverseScale * length, kernel);
    else if (i < ends['right-censored']) law.right(z, kernel);
    else law.left(z, kernel);

    value += times * kernel.value;
    const slope = times * kernel.byPlace;
    const curvature = -times * kernel.byPlaceTwice;
    let mixed = curvature * logTime;
    scaleGradient += slope * logTime;
    scaleInformation += mixed * logTime;
    if (length > 0) {
      const byLength = times * length;
      scaleGradient += byLength * kernel.byLength;
      scaleInformation -=
        byLength * (2 * logTime * kernel.byPlaceAndLength + length * kernel.byLengthTwice);
      mixed -= byLength * kernel.byPlaceAndLength;
    }

    for (let j = 0; j < width; j += 1) {
      const x = at(columns, first + j);
      if (x === 0) continue;
      gradient[j] = at(gradient, j) - slope * x;
      const share = curvature * x;
      const line = j * size;
      for (let k = 0; k <= j; k += 1) {
        information[line + k] = at(information, line + k) + share * at(columns, first + k);
      }
      information[width * size + j] = at(information, width * size + j) - mixed * x;
    }
  }

  gradient[width] = scaleGradient + exactWeight / inverseScale;
  information[width * size + width] = scaleInformation + exactWeight / inverseScale ** 2;
  value += exactWeight * Math.log(inverseScale);
  for (let j = 0; j < width; j += 1) {
    const [held, coefficient] = [at(penalty, j), at(point, j)];
    value -= (held * coefficient * coefficient) / 2;
    gradient[j] = at(gradient, j) - held * coefficient;
    information[j * size + j] = at(information, j * size + j) + held;
  }
  return { point, value, gradient, information };
}
