import type { Cabinet, TemperatureAt } from './air-plan';
import { TRIAL_GRID } from './cylinder-grid';
import type { HeatDamage } from './keeping';
import { pailDamage, worstDamage, type PailDamage } from './pail-damage';
import type { PailGroup } from './pail-group';
import { requirePositive, requireRange } from './require-range';
import { warmPails, type WarmingPlan, type WarmingResult } from './warm-pails';
import type { GroupResult } from './warming-progress';

export interface ClearingQuestion {
  pails: readonly PailGroup[];
  cabinet: Cabinet;
  deadlineHours: number;
  /** No set point above this; 50 unless given. */
  hottestC?: number;
  /** The coldest point must pass this; 40 unless given. */
  clearC?: number;
}

export interface ClearingPlan {
  setC: number;
  /** When the last pail is clear. */
  clearAtHours: number;
  heaterKWh: number;
  /** Of the group that loses most, cooling in the room included. */
  damage: PailDamage;
}

export type ClearingAnswer =
  | { kind: 'found'; gentlest: ClearingPlan; soonest: ClearingPlan }
  /** Even the hottest set point allowed takes longer than there is time. */
  | { kind: 'too-late'; hottestC: number };

const DEFAULTS = { hottestC: 50, clearC: 40 } as const;
const SCAN_STEP_C = 1;
const REFINED_STEP_C = 0.2;

/** A thermostat at the clearing temperature itself never gets there. */
const LEAST_ABOVE_C = 0.5;

/** Long enough for a pail to come down to where time hardly counts any more. */
const COOLING_HOURS = 48;
const CARRYING_HOURS = 0.05;

/**
 * Which cabinet temperature clears the honey by a deadline with the least heat damage?
 *
 * Hotter is faster but costs more per hour, and longer to cool; barely above the clearing temperature
 * the last crystals take so long that it costs more in the end. So set points are tried from half a
 * degree above the clearing temperature to the hottest allowed, degree by degree, then by fifths
 * about the best; of those that clear in time the one that leaves the most diastase at the worst
 * place of all pails wins (the mean of a pail would bear a few degrees more). All pails are taken out when the last is clear and cool two days in
 * the room, under the same films.
 * Reckoned on the trial grid: clearing times within 0.3 %. Sources: warm-pails.ts and keeping.ts.
 * Range: deadline up to 2000 hours; hottest set point from the clearing temperature + 0.5 to 80 °C.
 *
 * @throws RangeError outside that range.
 */
export function gentlestClearing(question: ClearingQuestion): ClearingAnswer {
  const { hottestC, clearC } = { ...DEFAULTS, ...question };
  requireRange('deadlineHours', requirePositive('deadlineHours', question.deadlineHours), 0, 2000);
  requireRange('hottestC', hottestC, clearC + LEAST_ABOVE_C, 80);

  const soonest = tryOut(question, hottestC, clearC);
  if (!soonest) return { kind: 'too-late', hottestC };
  let gentlest = soonest;
  const consider = (setC: number): boolean => {
    const trial = tryOut(question, setC, clearC);
    if (trial && trial.worst.diastaseLeft > gentlest.worst.diastaseLeft) gentlest = trial;
    return trial !== undefined;
  };

  const lowestC = clearC + LEAST_ABOVE_C;
  for (let setC = hottestC - SCAN_STEP_C; setC >= lowestC; setC -= SCAN_STEP_C) {
    if (!consider(setC)) break;
  }
  const aboutC = gentlest.setC;
  for (let offset = REFINED_STEP_C - SCAN_STEP_C; offset < SCAN_STEP_C; offset += REFINED_STEP_C) {
    const setC = aboutC + offset;
    if (setC >= lowestC && setC <= hottestC) consider(setC);
  }
  return { kind: 'found', gentlest: planOf(gentlest), soonest: planOf(soonest) };
}

/** One set point, the group that suffers most from it, and what that keeps at its worst place. */
interface Trial {
  setC: number;
  clearAtHours: number;
  heaterKWh: number;
  air: TemperatureAt[];
  worstOff: PailGroup;
  worst: HeatDamage;
}

function tryOut(question: ClearingQuestion, setC: number, clearC: number): Trial | undefined {
  const { cabinet, deadlineHours } = question;
  const pails = question.pails.map((group) => ({ grid: TRIAL_GRID, ...group }));
  const setPoints = [{ fromHours: 0, temperatureC: setC }];
  const warming = warmPails({
    pails,
    air: { kind: 'cabinet', cabinet, setPoints },
    untilHours: deadlineHours,
    clearC,
    stopWhenClear: true,
  });
  const clearAtHours = Math.max(...warming.groups.map((group) => group.clearAtHours ?? Infinity));
  if (clearAtHours > deadlineHours) return undefined;

  const air = takenOut(warming.air, clearAtHours, cabinet.roomC);
  const { groups } = warmAndCool(pails, air, { sampleEveryHours: 0.25 });
  const [worstOff, worst] = groups
    .map((group, index): [PailGroup, HeatDamage] => [pails[index] as PailGroup, worstDamage(group)])
    .reduce((kept, next) => (next[1].diastaseLeft < kept[1].diastaseLeft ? next : kept));
  return { setC, clearAtHours, heaterKWh: warming.energy.heaterKWh, air, worstOff, worst };
}

function planOf({ setC, clearAtHours, heaterKWh, air, worstOff, worst }: Trial): ClearingPlan {
  const { groups } = warmAndCool([worstOff], air, { keepCells: true });
  const across = pailDamage(groups[0] as GroupResult) as PailDamage;
  return { setC, clearAtHours, heaterKWh, damage: { ...across, worst } };
}

function warmAndCool(
  pails: readonly PailGroup[],
  air: TemperatureAt[],
  settings: Pick<WarmingPlan, 'sampleEveryHours' | 'keepCells'>,
): WarmingResult {
  const { atHours } = air[air.length - 1] as TemperatureAt;
  const untilHours = atHours + COOLING_HOURS;
  return warmPails({ pails, air: { kind: 'logged', readings: air }, untilHours, ...settings });
}

/** The air about the pails: the cabinet's until the last is clear, then the room's. */
function takenOut(air: WarmingResult['air'], clearAtHours: number, roomC: number): TemperatureAt[] {
  const inside = air.filter(({ atHours }) => atHours < clearAtHours);
  // Nothing is inside when all was clear from the start.
  const last = (inside.at(-1) ?? air[0]) as WarmingResult['air'][number];
  return [
    ...inside.map(({ atHours, airC }) => ({ atHours, temperatureC: airC })),
    { atHours: clearAtHours, temperatureC: last.airC },
    { atHours: clearAtHours + CARRYING_HOURS, temperatureC: roomC },
  ];
}
