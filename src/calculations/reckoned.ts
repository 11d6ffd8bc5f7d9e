import { invalidField } from '../core/refusal';

/** Where in the body an argument of a formula came from: argument name → JSON Pointer. */
export type Places = Readonly<Record<string, string>>;

/**
 * Runs formulas. What they refuse as out of range is refused as the field that it came from, with the range that works; an argument
 * of no known place as the whole body.
 */
export function reckoned<Result>(places: Places, reckon: () => Result): Result {
  try {
    return reckon();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const [, argument = '', rest = ''] = /^(\w+) (.*)$/s.exec(error.message) ?? [];
    const pointer = places[argument];
    if (pointer === undefined) throw invalidField('#', `${error.message}.`);
    const field = pointer.split('/').at(-1) ?? argument;
    throw invalidField(pointer, `${field} ${rest}.`);
  }
}

/** Rounds for an answer: more digits than a method is good for would feign exactness. */
export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  const whole = Math.round(value * scale);
  // Beyond this the scaled number is not exact, and the value has no such decimals anyway.
  return Number.isSafeInteger(whole) ? whole / scale : value;
}

export function roundedOrNull(value: number | undefined, decimals: number): number | null {
  return value === undefined ? null : rounded(value, decimals);
}
