/**
 * Independent yardstick: the exact series for a wall and a long cylinder that are suddenly put into
 * air of another temperature, with a film on the surface, and their product, the finite cylinder
 * (Carslaw & Jaeger 1959; Çengel, ch. 4). All temperatures as the part of the first difference left.
 */

/** Bessel functions of the first kind, from their integral; the trapezoid rule is exact to rounding. */
export function bessel(order: 0 | 1, x: number): number {
  const pieces = 120;
  let sum = 0;
  for (let piece = 0; piece < pieces; piece += 1) {
    const angle = (2 * Math.PI * piece) / pieces;
    sum += Math.cos(order * angle - x * Math.sin(angle));
  }
  return sum / pieces;
}

export interface Term {
  /** ζ in the tables. */
  root: number;
  /** C in the tables. */
  amplitude: number;
}

/** ζ·tan ζ = Bi. */
export function wallTerms(biot: number, count: number): Term[] {
  return rootsOf((x) => x * Math.sin(x) - biot * Math.cos(x), count).map((root) => ({
    root,
    amplitude: (4 * Math.sin(root)) / (2 * root + Math.sin(2 * root)),
  }));
}

/** ζ·J1(ζ) = Bi·J0(ζ). */
export function cylinderTerms(biot: number, count: number): Term[] {
  return rootsOf((x) => x * bessel(1, x) - biot * bessel(0, x), count).map((root) => {
    const j0 = bessel(0, root);
    const j1 = bessel(1, root);
    return { root, amplitude: (2 * j1) / (root * (j0 * j0 + j1 * j1)) };
  });
}

/** Excess left in a wall at `place` (0 the middle, 1 the surface) after the Fourier time. */
export function wallLeft(terms: readonly Term[], place: number, fourier: number): number {
  return sum(terms, fourier, ({ root }) => Math.cos(root * place));
}

export function wallMeanLeft(terms: readonly Term[], fourier: number): number {
  return sum(terms, fourier, ({ root }) => Math.sin(root) / root);
}

/** Excess left in a long cylinder at `place` (0 the axis, 1 the surface). */
export function cylinderLeft(terms: readonly Term[], place: number, fourier: number): number {
  return sum(terms, fourier, ({ root }) => bessel(0, root * place));
}

export function cylinderMeanLeft(terms: readonly Term[], fourier: number): number {
  return sum(terms, fourier, ({ root }) => (2 * bessel(1, root)) / root);
}

function sum(terms: readonly Term[], fourier: number, shape: (term: Term) => number): number {
  return terms.reduce(
    (total, term) =>
      total + term.amplitude * shape(term) * Math.exp(-term.root * term.root * fourier),
    0,
  );
}

/** The first positive roots, by small steps and halving. */
function rootsOf(f: (x: number) => number, count: number): number[] {
  const roots: number[] = [];
  const step = 0.2;
  for (let x = 1e-6; roots.length < count; x += step) {
    if (f(x) * f(x + step) > 0) continue;
    let [low, high] = [x, x + step];
    for (let halving = 0; halving < 50; halving += 1) {
      const middle = (low + high) / 2;
      if (f(low) * f(middle) <= 0) high = middle;
      else low = middle;
    }
    roots.push((low + high) / 2);
  }
  return roots;
}
