import { moistureFromRefractiveIndex } from '../core/honey/moisture';
import { invalidField } from '../core/refusal';
import { centiOf, deciOf } from '../platform/fields';
import type { BringInRequest } from './lots.requests';

export interface StoredMoisture {
  moistureCentiPercent: number | null;
  refractiveIndexE5: number | null;
  readAtDeciC: number | null;
}

/** The moisture of what is brought in: as stated, or as reckoned from the reading. Honey needs one of the two. */
export function moistureOf(request: BringInRequest): StoredMoisture {
  const { kind, moisturePercent, refractometer } = request;
  if (moisturePercent !== undefined && refractometer !== undefined) {
    throw invalidField('#/refractometer', 'Give moisturePercent or refractometer, not both.');
  }
  if (refractometer !== undefined) {
    return {
      moistureCentiPercent: centiOf(reckoned(refractometer)),
      refractiveIndexE5: Math.round(refractometer.refractiveIndex * 100_000),
      readAtDeciC: deciOf(refractometer.temperatureC),
    };
  }
  if (moisturePercent === undefined && kind === 'honey') {
    throw invalidField('#', 'Give moisturePercent, or refractometer with a reading.');
  }
  return {
    moistureCentiPercent: moisturePercent === undefined ? null : centiOf(moisturePercent),
    refractiveIndexE5: null,
    readAtDeciC: null,
  };
}

function reckoned(reading: { refractiveIndex: number; temperatureC: number }): number {
  try {
    return moistureFromRefractiveIndex(reading);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const field = error.message.startsWith('temperatureC') ? 'temperatureC' : 'refractiveIndex';
    throw invalidField(`#/refractometer/${field}`, `${error.message}.`);
  }
}
