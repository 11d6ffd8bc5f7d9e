/** A lot's mark as it is written on a tub: K7M-R486. */
export function writtenMark(code: string): string {
  return `${code.slice(0, 3)}-${code.slice(3)}`;
}
