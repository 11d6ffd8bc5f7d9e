import { heatDamage, type HeatDamage } from '../core/honey/keeping';
import {
  headroom,
  LEGAL_LIMITS,
  type Headroom,
  type KeepingLimits,
} from '../core/honey/keeping-limits';
import { historyOfReadings, historyOfSteps, type History } from '../core/honey/temperature-history';
import { invalidField } from '../core/refusal';
import { cautions } from '../core/cautions';
import { toHeatCost } from './heat-cost';
import type { ClubLimits, KeepingReading, KeepingRequest, KeepingStep } from './keeping.requests';
import type { KeepingResponse, LimitHeadroom } from './keeping.responses';
import { reckoned, rounded } from './reckoned';
import { sent } from './sent';

const MS_PER_HOUR = 3_600_000;
const DEFAULTS = { longestGapHours: 2, legalKind: 'general', keptAtC: 15 } as const;

const basis = {
  method:
    'HMF adds up at a rate that rises with temperature (zero order; straight lines in ln rate against 1/T between published waiting times: ' +
    'slowest, likely and fastest). Enzymes fall off by their half-lives (first order, Arrhenius). Between readings the temperature is a ' +
    'straight line; across a gap the warmer of the two. Days left: at keptAtC, by the fastest HMF.',
  source:
    'HMF: White et al. in the Manual of Beekeeping and an adviser of the Danish Beekeepers’ Association (waiting times); enzymes: White, Kushnir & ' +
    'Subers 1964, Food Technology 18(4), 153–156; limits: Directive 2001/110/EC, Annex II (HMF 40 mg/kg, diastase 8; low in enzymes ' +
    '15 and 3; tropical 80 and 8).',
  validRange:
    '10 to 80 °C. Colder time is counted as 10 °C, which overstates. Honeys differ: published HMF rates lie apart by a factor of up to 5.',
  cautions: [cautions.estimates, cautions.burns, cautions.law, cautions.infants],
};

/** What a temperature history costs a honey, and what is left of the limits. */
export function reckonKeeping(request: KeepingRequest): KeepingResponse {
  const inputs = { ...DEFAULTS, ...sent(request) };
  const damage = damageOf(request, inputs.longestGapHours);
  const before = request.before && { invertaseLeftPercent: 100, ...sent(request.before) };
  const after = before && {
    hmfMgPerKg: before.hmfMgPerKg + damage.hmfGainMgPerKg.most,
    diastaseNumber: before.diastaseNumber * damage.diastaseLeft,
    invertaseLeft: (before.invertaseLeftPercent / 100) * damage.invertaseLeft,
  };
  const history = request.steps === undefined ? '#/readings' : '#/steps';
  const limits = !after
    ? []
    : reckoned({ temperatureC: '#/keptAtC', hmfMgPerKg: history }, () =>
        headroom({
          state: after,
          law: LEGAL_LIMITS[inputs.legalKind],
          club: clubLimitsOf(request.clubLimits ?? {}),
          keptAtC: inputs.keptAtC,
        }),
      ).map(toLimitHeadroom);
  return {
    inputs: { ...inputs, ...(before && { before }) },
    hours: rounded(damage.hours, 2),
    hoursBelowRange: rounded(damage.hoursBelowRange, 2),
    gapHours: rounded(damage.gapHours, 2),
    cost: toHeatCost(damage),
    after: !after
      ? null
      : {
          hmfMgPerKg: rounded(after.hmfMgPerKg, 2),
          diastaseNumber: rounded(after.diastaseNumber, 2),
          invertaseLeftPercent: rounded(100 * after.invertaseLeft, 2),
        },
    limits,
    binding: limits[0] ?? null,
    ...basis,
  };
}

function damageOf({ steps, readings }: KeepingRequest, longestGapHours: number): HeatDamage {
  if (steps !== undefined && readings === undefined) return heatDamage(historyOf(steps));
  if (readings !== undefined && steps === undefined) {
    return heatDamage(loggedHistory(readings, longestGapHours));
  }
  throw invalidField('#', 'Give either steps or readings.');
}

function historyOf(steps: readonly KeepingStep[]): History {
  steps.forEach((step, index) => {
    reckoned({ temperatureC: `#/steps/${index}/temperatureC` }, () => historyOfSteps([step]));
  });
  return historyOfSteps(steps);
}

function loggedHistory(readings: readonly KeepingReading[], longestGapHours: number): History {
  const start = readings[0]?.at.getTime() ?? 0;
  const timed = readings.map(({ at, temperatureC }, index) => {
    const reading = { atHours: (at.getTime() - start) / MS_PER_HOUR, temperatureC };
    reckoned({ temperatureC: `#/readings/${index}/temperatureC` }, () =>
      historyOfReadings([reading], longestGapHours),
    );
    return reading;
  });
  const late = timed.findIndex(
    ({ atHours }, index) => index > 0 && atHours <= (timed[index - 1]?.atHours ?? 0),
  );
  if (late > 0) {
    throw invalidField(`#/readings/${late}/at`, 'at must be later than the reading before it.');
  }
  return historyOfReadings(timed, longestGapHours);
}

function clubLimitsOf(limits: ClubLimits): KeepingLimits {
  const { hmfMgPerKg, diastaseNumber, invertaseLeftPercent } = limits;
  return {
    ...(hmfMgPerKg !== undefined && { hmfMgPerKg }),
    ...(diastaseNumber !== undefined && { diastaseNumber }),
    ...(invertaseLeftPercent !== undefined && { invertaseLeft: invertaseLeftPercent / 100 }),
  };
}

function toLimitHeadroom({ limit, rule, limitValue, left, daysLeft }: Headroom): LimitHeadroom {
  const unit = limit === 'invertase' ? 100 : 1;
  return {
    limit,
    rule,
    limitValue: rounded(unit * limitValue, 2),
    left: rounded(unit * left, 2),
    daysLeft: Math.floor(daysLeft),
  };
}
