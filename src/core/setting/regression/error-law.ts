export type Distribution = 'weibull' | 'lognormal' | 'loglogistic';

/**
 * The log-probability of what was seen, and its derivatives by the place z and by the length of the
 * interval, when the other is held. Laws write into one that the caller keeps, since a fit asks
 * for millions.
 */
export type Kernel = {
  value: number;
  byPlace: number;
  byLength: number;
  byPlaceTwice: number;
  byPlaceAndLength: number;
  byLengthTwice: number;
};

/**
 * The law of W in log(time) = linear predictor + scale x W. The kernels take the place
 * z = (log time - linear predictor) / scale; `interval` takes that of its start, and its length in
 * the same measure, above 0. Each is concave in (z, length): a maximum found is the only one.
 * Only `interval` writes the derivatives by the length.
 */
export type ErrorLaw = {
  distribution: Distribution;
  /** Log-density at z. */
  exact: (z: number, kernel: Kernel) => void;
  /** Log-probability of (z, z + length]. */
  interval: (z: number, length: number, kernel: Kernel) => void;
  /** Log-probability of above z. */
  right: (z: number, kernel: Kernel) => void;
  /** Log-probability of up to z. */
  left: (z: number, kernel: Kernel) => void;
  /** The w with the share `fraction` of W up to it, 0 < fraction < 1. */
  quantile: (fraction: number) => number;
  mean: number;
  standardDeviation: number;
};

/** A kernel to write into. */
export function emptyKernel(): Kernel {
  return {
    value: 0.1,
    byPlace: 0.1,
    byLength: 0.1,
    byPlaceTwice: 0.1,
    byPlaceAndLength: 0.1,
    byLengthTwice: 0.1,
  };
}

/** Writes the parts that do not concern the length. */
export function setKernel(
  kernel: Kernel,
  value: number,
  byPlace: number,
  byPlaceTwice: number,
): void {
  kernel.value = value;
  kernel.byPlace = byPlace;
  kernel.byPlaceTwice = byPlaceTwice;
}

/** Natural logarithm of exp(length) - 1, without overflow. */
export function logGrowth(length: number): number {
  return length > 1 ? length + Math.log1p(-Math.exp(-length)) : Math.log(Math.expm1(length));
}
