/** Gives the next number of a sequence, each above 0 and below 1. */
export type RandomSource = () => number;

const MODULUS_1 = 4_294_967_087;
const MODULUS_2 = 4_294_944_443;
const WARM_UP_DRAWS = 12;

/**
 * A repeatable source of uniform numbers in (0, 1): the same seed gives the same sequence anywhere.
 * For statistics only, never for secrets.
 *
 * Formula: the combined multiple recursive generator MRG32k3a, period about 2^191, all products
 * below 2^53 and so exact. All six words of its state start at `seed`; twelve numbers are thrown
 * away, since small seeds start near 0.
 * Source: P. L'Ecuyer, "Good parameters and implementations for combined multiple recursive random
 * number generators", Operations Research 47 (1999).
 *
 * Works for whole seeds from 1 to 4 294 944 442. Throws RangeError for others.
 */
export function seededRandom(seed: number): RandomSource {
  if (!Number.isInteger(seed) || seed < 1 || seed >= MODULUS_2) {
    throw new RangeError(`seed must be a whole number from 1 to ${MODULUS_2 - 1}, got ${seed}`);
  }
  let [a1, a2, a3] = [seed, seed, seed];
  let [b1, b2, b3] = [seed, seed, seed];
  const draw = () => {
    const a = remainder(1_403_580 * a2 - 810_728 * a1, MODULUS_1);
    const b = remainder(527_612 * b3 - 1_370_589 * b1, MODULUS_2);
    a1 = a2;
    a2 = a3;
    a3 = a;
    b1 = b2;
    b2 = b3;
    b3 = b;
    return (a > b ? a - b : a - b + MODULUS_1) / (MODULUS_1 + 1);
  };
  for (let drawn = 0; drawn < WARM_UP_DRAWS; drawn += 1) draw();
  return draw;
}

function remainder(value: number, modulus: number): number {
  const rest = value % modulus;
  return rest < 0 ? rest + modulus : rest;
}
