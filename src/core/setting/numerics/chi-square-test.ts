import { logChiSquareUpperTail } from './chi-square';

export type ChiSquareTest = {
  chiSquare: number;
  degreesOfFreedom: number;
  /** The chance of a larger chi-square were there no difference; 0 where too small for a double. */
  p: number;
  /** Its natural logarithm, which never is. */
  logP: number;
};

/** A chi-square value with its p-value. */
export function chiSquareTest(chiSquare: number, degreesOfFreedom: number): ChiSquareTest {
  const logP = logChiSquareUpperTail(chiSquare, degreesOfFreedom);
  return { chiSquare, degreesOfFreedom, p: Math.exp(logP), logP };
}
