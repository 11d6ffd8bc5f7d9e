import { warmPails } from '../core/honey/warm-pails';
import { SEEDING_C } from '../core/honey/seed-blend';
import { cautions } from '../core/cautions';
import type { CoolingPail, CoolingRequest } from './cooling.requests';
import type { CoolingResponse } from './cooling.responses';
import {
  conduction,
  conductionRange,
  conductionSource,
  filmNote,
  MOST_SAMPLES,
  USUAL_FILM,
} from './pail-basis';
import { reckoned, rounded, roundedOrNull } from './reckoned';
import { sent } from './sent';
import { pailGroupOf, requireHoneyC, wholePail, type PailInWords } from './warm-pail-groups';

const WARM_C = 42;
const DEFAULTS = { airC: 15, belowC: SEEDING_C.cautious, hours: 72, filmWPerM2K: USUAL_FILM };

const basis = {
  filmNote,
  method: `${conduction} The honey is taken to be clear and of one temperature throughout when it is taken out, and the air not to get warmer from it. A pail is cool when its warmest point is down to belowC.`,
  source: `${conductionSource} 24 °C for seeding: FAO Agricultural Services Bulletin 124.`,
  validRange: conductionRange,
  cautions: [cautions.estimates, cautions.burns, cautions.lifting, cautions.infants],
};

/** How long warmed pails take until seed is safe in them. */
export function reckonCooling(request: CoolingRequest): CoolingResponse {
  const clear = request.pails.map((pail, index) =>
    wholePail({ ...sent(pail), crystalPercent: 0 }, index, WARM_C),
  );
  const inputs = { ...DEFAULTS, ...sent(request), pails: clear.map(toCoolingPail) };
  const { airC, belowC, hours, filmWPerM2K } = inputs;
  const groups = clear.map((pail, index) => pailGroupOf(pail, index, filmWPerM2K));
  const cooling = reckoned({ airC: '#/airC', seedC: '#/belowC' }, () =>
    warmPails({
      pails: groups,
      air: {
        kind: 'held',
        temperatures: [{ fromHours: 0, temperatureC: requireHoneyC('airC', airC) }],
      },
      untilHours: hours,
      seedC: belowC,
      sampleEveryHours: hours / MOST_SAMPLES,
    }),
  );
  const last = Math.max(
    ...cooling.groups.map(({ seedSafeAtHours }) => seedSafeAtHours ?? Infinity),
  );
  return {
    inputs,
    groups: cooling.groups.map(({ seedSafeAtHours, samples }) => ({
      belowAtHours: roundedOrNull(seedSafeAtHours, 2),
      curve: samples.map(({ atHours, warmestC, meanC, surfaceC }) => ({
        atHours: rounded(atHours, 2),
        warmestC: rounded(warmestC, 2),
        meanC: rounded(meanC, 2),
        surfaceC: rounded(surfaceC, 2),
      })),
    })),
    allBelowAtHours: Number.isFinite(last) ? rounded(last, 2) : null,
    ...basis,
  };
}

function toCoolingPail(pail: PailInWords): Required<CoolingPail> {
  const { count, massKg, diameterCm, heightCm, moisturePercent, startC } = pail;
  return { count, massKg, diameterCm, heightCm, moisturePercent, startC };
}
