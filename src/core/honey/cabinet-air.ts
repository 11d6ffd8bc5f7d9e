import type { Cabinet } from './air-plan';
import { lookAheadAll, mixAhead, type GroupState } from './pail-group';

export interface AirStep {
  airC: number;
  /** Heat over the step, J: from the heater, out to the room, into all pails, into the air. */
  heaterJ: number;
  lostJ: number;
  pailsJ: number;
  airJ: number;
}

/**
 * One step of a cabinet's air: what the heater gives goes into the air, the pails and the room.
 *
 * The thermostat asks for the power that holds the set point at the end of the step. If that is more
 * than the heater has, or less than nothing, the heater gives all or nothing, and the air temperature
 * follows: the heat of air, pails and room is a straight line in it, so two looks ahead
 * (at the set point and a degree beside it) suffice to meet the balance exactly.
 * The switching of a real thermostat about its set point is averaged out.
 */
export function cabinetStep(
  cabinet: Cabinet,
  states: readonly GroupState[],
  before: { airC: number; setC: number },
  stepS: number,
): AirStep {
  const { setC } = before;
  const balance = (airC: number, pailsJ: number): AirStep => {
    const airJ = cabinet.airCapacityJPerK * (airC - before.airC);
    const lostJ = cabinet.lossWPerK * (airC - cabinet.roomC) * stepS;
    return { airC, heaterJ: airJ + lostJ + pailsJ, lostJ, pailsJ, airJ };
  };

  const mostJ = cabinet.heaterPowerW * stepS;
  const held = balance(setC, lookAheadAll(states, setC, stepS, 'ahead'));
  const givenJ = Math.min(mostJ, Math.max(0, held.heaterJ));
  if (givenJ === held.heaterJ) return held;

  const otherC = setC - 1;
  const other = balance(otherC, lookAheadAll(states, otherC, stepS, 'otherAhead'));
  const perDegreeJ = held.heaterJ - other.heaterJ;
  const belowC = (held.heaterJ - givenJ) / perDegreeJ;
  mixAhead(states, belowC);
  return balance(setC - belowC, held.pailsJ + belowC * (other.pailsJ - held.pailsJ));
}
