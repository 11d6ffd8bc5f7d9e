import { conductivityWPerMK } from '../core/honey/conductivity';
import { densityAt20CKgPerM3 } from '../core/honey/density';
import {
  MOISTURE_RANGE_PERCENT,
  moistureFromRefractiveIndex,
  refractiveIndexFromMoisture,
} from '../core/honey/moisture';
import { specificHeatJPerKgK } from '../core/honey/specific-heat';
import { viscosityPaS } from '../core/honey/viscosity';
import { invalidField } from '../core/refusal';
import { cautions } from '../core/cautions';
import type { MoistureRequest } from './moisture.requests';
import type { HoneyProperty, MoistureResponse } from './moisture.responses';
import { reckoned, rounded } from './reckoned';
import { sent } from './sent';

const TABLE_C = 20;
const { lowest, highest } = MOISTURE_RANGE_PERCENT;

const basis = {
  method:
    'The reading is brought to 20 °C (0.00023 added for each degree above), then water = (−0.2681 − log10(n − 1)) / 0.002243. ' +
    'Density, conductivity and viscosity are straight lines between the points of published tables (viscosity in the logarithm); ' +
    'specific heat is shared between water and dry matter by mass.',
  source:
    'Chataway 1932 and Wedmore 1955 (refractive index), AOAC 969.38 (correction), table in Bogdanov, Book of Honey, ch. 4; ' +
    'White, USDA (density); Helvey 1954 (specific heat, conductivity) and Detroy (conductivity); Munro 1943 (viscosity).',
  validRange:
    'An index of 1.4740 to 1.5044 at 20 °C, that is 25 to 13 % water, read at 10 to 40 °C; density and specific heat 13 to 21 % water; ' +
    'conductivity 15 to 21 % and 2 to 71 °C; viscosity 13.7 to 21.5 % and 14 to 70 °C.',
  cautions: [
    'Set honey must be made clear in a closed vessel and cooled before it is read.',
    cautions.burns,
    cautions.infants,
  ],
};

/** How moist a honey is, and what follows from it. */
export function reckonMoisture(request: MoistureRequest): MoistureResponse {
  const { refractiveIndex, moisturePercent, temperatureC = TABLE_C } = request;
  const atC = request.propertiesAtC ?? TABLE_C;
  if ((refractiveIndex === undefined) === (moisturePercent === undefined)) {
    throw invalidField('#', 'Give either refractiveIndex or moisturePercent.');
  }
  const places = {
    temperatureC: '#/temperatureC',
    refractiveIndex: '#/refractiveIndex',
    waterPercent: '#/moisturePercent',
  };
  const waterPercent =
    moisturePercent ??
    reckoned(places, () =>
      moistureFromRefractiveIndex({ refractiveIndex: refractiveIndex ?? NaN, temperatureC }),
    );
  // The equation at the table's own ends lies a hair beyond them.
  const inTable = Math.min(highest, Math.max(lowest, waterPercent));
  const indexAt = (readAtC: number) =>
    reckoned(places, () =>
      refractiveIndexFromMoisture({
        waterPercent: moisturePercent ?? inTable,
        temperatureC: readAtC,
      }),
    );

  return {
    inputs: { ...sent(request), temperatureC, propertiesAtC: atC },
    moisturePercent: rounded(waterPercent, 2),
    refractiveIndex: refractiveIndex ?? rounded(indexAt(temperatureC), 5),
    refractiveIndexAt20C: rounded(indexAt(TABLE_C), 5),
    densityAt20CKgPerM3: property(1, () => densityAt20CKgPerM3(waterPercent)),
    specificHeatJPerKgK: property(0, () => specificHeatJPerKgK(waterPercent)),
    conductivityWPerMK: property(3, () => conductivityWPerMK({ waterPercent, temperatureC: atC })),
    viscosityPaS: property(2, () => viscosityPaS({ waterPercent, temperatureC: atC })),
    ...basis,
  };
}

function property(decimals: number, reckon: () => number): HoneyProperty {
  try {
    return { value: rounded(reckon(), decimals), outOfRange: null };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const words = error.message
      .replace(/^waterPercent/, 'moisturePercent')
      .replace(/^temperatureC/, 'propertiesAtC');
    return { value: null, outOfRange: `${words}.` };
  }
}
