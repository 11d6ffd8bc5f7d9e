import type { AirPlan, Cabinet } from '../core/honey/air-plan';
import { pailDamage, type PailDamage } from '../core/honey/pail-damage';
import { warmPails } from '../core/honey/warm-pails';
import type { GroupResult } from '../core/honey/warming-progress';
import { invalidField } from '../core/refusal';
import { cautions } from '../core/cautions';
import { reckonClearing, toHeatCostAcross } from './clearing';
import {
  conduction,
  conductionRange,
  conductionSource,
  filmNote,
  MOST_SAMPLES,
  USUAL_FILM,
} from './pail-basis';
import { reckoned, rounded, roundedOrNull } from './reckoned';
import { pailGroupOf, requireHoneyC, wholePail } from './warm-pail-groups';
import type { WarmingCabinet, WarmingRequest } from './warming.requests';
import type { WarmedPails, WarmingResponse } from './warming.responses';
import { sent } from './sent';

const ROOM_C = 18;
const START_C = 15;
const AIR_CAPACITY_J_PER_K = 20_000;
const DEFAULTS = { hours: 72, clearC: 40, filmWPerM2K: USUAL_FILM, hottestC: 50 } as const;

/** So strong a heater, without losses, holds its air at the set point: air that is held, as a cabinet. */
const ANY_POWER_W = 1e9;

const basis = {
  filmNote,
  method:
    `${conduction} All pails share one air; a cabinet’s follows from heater, thermostat, losses and what the pails take. Clear means that the coldest ` +
    'point has passed clearC; how many crystals had melted is in the curve. Heat damage is reckoned cell by cell. By a deadline, the temperature ' +
    'that leaves the most diastase at the worst place is sought.',
  source: `${conductionSource} Heat damage: as under keeping (White, Kushnir & Subers 1964; White et al.).`,
  validRange: conductionRange,
  cautions: [cautions.estimates, cautions.burns, cautions.lifting, cautions.infants],
};

/** How long pails take to clear, what it costs the honey, and which temperature is gentlest. */
export function reckonWarming(request: WarmingRequest): WarmingResponse {
  const inputs = filled(request);
  const { hours, clearC, filmWPerM2K, hottestC, deadlineHours } = inputs;
  const pails = inputs.pails.map((pail, index) => pailGroupOf(pail, index, filmWPerM2K));
  const air = airOf(inputs);
  const places = { heaterPowerW: '#/cabinet/heaterW', clearC: '#/clearC' };
  const warming = reckoned(places, () =>
    warmPails({
      pails,
      air,
      untilHours: hours,
      clearC,
      sampleEveryHours: hours / MOST_SAMPLES,
      keepCells: true,
    }),
  );
  const clearAt = warming.groups.map(({ clearAtHours }) => clearAtHours ?? Infinity);
  const lastClear = Math.max(...clearAt);
  const { heaterKWh, pailsKWh, lostKWh } = warming.energy;
  return {
    inputs,
    groups: warming.groups.map(toWarmedPails),
    allClearAtHours: Number.isFinite(lastClear) ? rounded(lastClear, 2) : null,
    air: warming.air.map(({ atHours, airC, heaterW }) => ({
      atHours: rounded(atHours, 2),
      airC: rounded(airC, 2),
      heaterW: rounded(heaterW, 0),
    })),
    energy: {
      heaterKWh: rounded(heaterKWh, 3),
      pailsKWh: rounded(pailsKWh, 3),
      lostKWh: air.kind === 'cabinet' ? rounded(lostKWh, 3) : null,
    },
    byDeadline:
      deadlineHours === undefined
        ? null
        : reckonClearing({ pails, cabinet: cabinetOf(air), deadlineHours, hottestC, clearC }),
    ...basis,
  };
}

function filled(request: WarmingRequest) {
  const { cabinet, ...rest } = sent(request);
  return {
    ...DEFAULTS,
    ...rest,
    pails: request.pails.map((pail, index) => ({
      ...wholePail(pail, index, START_C),
      grain: pail.grain ?? 'fine',
    })),
    ...(cabinet && { cabinet: filledCabinet(cabinet) }),
  };
}

function filledCabinet(cabinet: WarmingCabinet): Required<WarmingCabinet> {
  const { roomC = ROOM_C, airCapacityJPerK = AIR_CAPACITY_J_PER_K } = cabinet;
  return { ...sent(cabinet), roomC, startC: cabinet.startC ?? roomC, airCapacityJPerK };
}

function airOf({ airC, cabinet }: Pick<ReturnType<typeof filled>, 'airC' | 'cabinet'>): AirPlan {
  if (airC !== undefined && cabinet === undefined) {
    const temperatureC = reckoned({ airC: '#/airC' }, () => requireHoneyC('airC', airC));
    return { kind: 'held', temperatures: [{ fromHours: 0, temperatureC }] };
  }
  if (cabinet === undefined || airC !== undefined) {
    throw invalidField('#', 'Give either airC or cabinet.');
  }
  for (const name of ['thermostatC', 'roomC', 'startC'] as const) {
    reckoned({ [name]: `#/cabinet/${name}` }, () => requireHoneyC(name, cabinet[name]));
  }
  const { heaterW, lossWPerK, roomC, startC, airCapacityJPerK, thermostatC } = cabinet;
  return {
    kind: 'cabinet',
    cabinet: { heaterPowerW: heaterW, lossWPerK, roomC, startC, airCapacityJPerK },
    setPoints: [{ fromHours: 0, temperatureC: thermostatC }],
  };
}

function cabinetOf(air: AirPlan): Cabinet {
  if (air.kind === 'cabinet') return air.cabinet;
  const room = { roomC: ROOM_C, startC: ROOM_C };
  return { heaterPowerW: ANY_POWER_W, lossWPerK: 0, airCapacityJPerK: 0, ...room };
}

function toWarmedPails(group: GroupResult): WarmedPails {
  return {
    clearAtHours: roundedOrNull(group.clearAtHours, 2),
    curve: group.samples.map(({ atHours, coreC, surfaceC, meanC, meltedPercent }) => ({
      atHours: rounded(atHours, 2),
      coreC: rounded(coreC, 2),
      surfaceC: rounded(surfaceC, 2),
      meanC: rounded(meanC, 2),
      meltedPercent: rounded(meltedPercent, 1),
    })),
    cost: toHeatCostAcross(pailDamage(group) as PailDamage),
  };
}
