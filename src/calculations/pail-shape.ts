import { densityAt20CKgPerM3 } from '../core/honey/density';
import type { Films, PailShape } from '../core/honey/cylinder-grid';
import { invalidField } from '../core/refusal';
import { reckoned, rounded } from './reckoned';

const CM_PER_M = 100;
const USUAL_MASS_KG = 25;

/** Below this a pail would need so short steps that it costs too much to reckon. */
const SMALLEST_CM = 8;

export interface PailWords {
  massKg?: number;
  diameterCm?: number;
  heightCm?: number;
}

/**
 * The size of a pail of which some was said: mass, diameter and fill height follow from each other by the density. A pail of which only
 * the mass is known is taken to be filled as high as it is wide; one of which nothing is known holds 25 kg.
 */
export function wholeShape(
  words: PailWords,
  moisturePercent: number,
  pointer: string,
): Required<PailWords> {
  const density = reckoned({ waterPercent: `${pointer}/moisturePercent` }, () =>
    densityAt20CKgPerM3(moisturePercent),
  );
  const { massKg, diameterCm, heightCm } = words;
  if (massKg !== undefined && diameterCm !== undefined && heightCm !== undefined) {
    throw invalidField(
      `${pointer}/massKg`,
      'massKg follows from diameterCm and heightCm: give two of the three.',
    );
  }
  const volume = (massKg ?? USUAL_MASS_KG) / density;
  const width = diameterCm ?? heightCm;
  const shape =
    width === undefined
      ? bothFrom(volume)
      : diameterCm !== undefined
        ? { diameterCm, heightCm: heightCm ?? CM_PER_M * heightOf(volume, diameterCm / CM_PER_M) }
        : { diameterCm: CM_PER_M * diameterOf(volume, width / CM_PER_M), heightCm: width };
  for (const size of ['diameterCm', 'heightCm'] as const) {
    if (shape[size] < SMALLEST_CM || shape[size] > CM_PER_M) {
      throw invalidField(
        pointer,
        `${size} comes to ${rounded(shape[size], 1)}; it must be a number from ${SMALLEST_CM} to ${CM_PER_M}.`,
      );
    }
  }
  const { diameterM, fillHeightM } = inMetres(shape);
  return {
    massKg: rounded(density * Math.PI * (diameterM / 2) ** 2 * fillHeightM, 3),
    diameterCm: rounded(shape.diameterCm, 1),
    heightCm: rounded(shape.heightCm, 1),
  };
}

export function inMetres({ diameterCm, heightCm }: Omit<Required<PailWords>, 'massKg'>): PailShape {
  return { diameterM: diameterCm / CM_PER_M, fillHeightM: heightCm / CM_PER_M };
}

/** One film on every face. */
export function allRound(filmWPerM2K: number): Films {
  return { sideWPerM2K: filmWPerM2K, topWPerM2K: filmWPerM2K, bottomWPerM2K: filmWPerM2K };
}

function bothFrom(volume: number) {
  const sizeCm = CM_PER_M * Math.cbrt((4 * volume) / Math.PI);
  return { diameterCm: sizeCm, heightCm: sizeCm };
}

function heightOf(volume: number, diameterM: number): number {
  return (4 * volume) / (Math.PI * diameterM ** 2);
}

function diameterOf(volume: number, heightM: number): number {
  return Math.sqrt((4 * volume) / (Math.PI * heightM));
}
