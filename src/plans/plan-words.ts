import { cautions, type CautionTopic } from '../core/cautions';
import type {
  Alternative,
  Chain,
  Change,
  Obstacle,
  ObstacleReason,
  Slot,
} from '../core/planning/runs/run';
import { Temporal } from '@js-temporal/polyfill';
import { rounded } from '../reckonings/reckoned';
import type { StoredAlternative, StoredSlot } from './plan-rows';
import type { HandsOnMoment, PlanCaution, PlanWhyNotSooner, SlotStep } from './plans.responses';
import type { StationRow } from './room-rows';

/** What words about a chain need to know. */
export interface Telling {
  timeZone: string;
  stations: ReadonlyMap<string, StationRow>;
}

/** An instant as the clock in the room shows it. */
export function timeInWords(at: number, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(at)
    .toZonedDateTimeISO(timeZone)
    .toLocaleString('en-GB', {
      weekday: 'short',
      day: 'numeric',
      month: 'short',
      hour: '2-digit',
      minute: '2-digit',
    });
}

export function toStoredAlternative(
  { preferences, chain, whyNotSooner }: Alternative,
  telling: Telling,
): StoredAlternative {
  const { option } = chain;
  return {
    bestAt: [...preferences],
    slots: slotsOf(chain, telling),
    coolEnoughAt: iso(chain.coolEnoughAt),
    pottedAt: iso(chain.bench.endsAt),
    handsOn: handsOnOf(chain, telling),
    heat: {
      setPointC: option.setpointC,
      warmHours: rounded((chain.warm.endsAt - chain.warm.startsAt) / 3_600_000, 2),
      coolingHours: rounded(option.coolingMinutes / 60, 2),
      diastaseLeftPercent: rounded(option.diastaseLeftPercent, 1),
      hmfGainMgPerKg: rounded(option.hmfGainedMgPerKg, 2),
      energyKWh: rounded(option.energyKWh, 2),
      otherPails: chain.otherPails,
    },
    placeHours: rounded(chain.placeMinutes / 60, 1),
    whyNotSooner: whyInWords(whyNotSooner, telling),
    warnings:
      chain.otherPails === 0
        ? []
        : [
            `Up to ${chain.otherPails} other pails stand in the cabinet meanwhile: a weak heater takes longer then. Look at the honey before you take it out.`,
          ],
  };
}

export function slotsOf(chain: Chain, telling: Telling): StoredSlot[] {
  const slot = (step: SlotStep, one: Slot): StoredSlot => {
    const station = telling.stations.get(one.stationId);
    const numbers = new Map(station?.places.map(({ id, number }) => [id, number]));
    return {
      step,
      stationId: one.stationId,
      stationName: station?.name ?? '',
      duty: one.duty,
      minC: one.minC,
      maxC: one.maxC,
      startsAt: iso(one.startsAt),
      endsAt: iso(one.endsAt),
      places: one.placeIds.map((id) => numbers.get(id) ?? 0).sort((a, b) => a - b),
      placeIds: [...one.placeIds],
    };
  };
  return [
    slot('warm', chain.warm),
    ...(chain.coolDown === null ? [] : [slot('cool-down', chain.coolDown)]),
    slot('bench', chain.bench),
    slot('cool', chain.cool),
  ];
}

function handsOnOf(chain: Chain, { stations, timeZone }: Telling): HandsOnMoment[] {
  const name = ({ stationId }: Slot) => stations.get(stationId)?.name ?? '';
  const moment = (
    deed: HandsOnMoment['deed'],
    at: number,
    until: number,
    words: string,
  ): HandsOnMoment => ({
    deed,
    at: iso(at),
    until: iso(until),
    inWords: `${timeInWords(at, timeZone)}: ${words}`,
  });
  const { warm, bench, cool, option } = chain;
  return [
    moment(
      'load',
      warm.startsAt,
      warm.startsAt,
      `load ${name(warm)} and set it to ${option.setpointC} °C.`,
    ),
    moment(
      'take-out',
      warm.endsAt,
      warm.endsAt,
      `look whether the honey is clear, and take it out of ${name(warm)} to cool.`,
    ),
    moment(
      'seed-and-pot',
      bench.startsAt,
      bench.endsAt,
      `stir the seed in at ${name(bench)} and pot until ${timeInWords(bench.endsAt, timeZone)}.`,
    ),
    moment('shelve', cool.startsAt, cool.startsAt, `put the pots into ${name(cool)}.`),
    moment('fetch', cool.endsAt, cool.endsAt, `look whether it has set, and clear ${name(cool)}.`),
  ];
}

const reasonWords: Record<ObstacleReason, string> = {
  places: 'too few places are free',
  temperature: 'others have it booked for temperatures that do not go with these',
  changeover: 'it has to change over to or from another duty',
  'other-duty': 'it is booked for another duty',
  closed: 'it is closed',
  'duty-window': 'it is kept for another duty',
  'other-pails': 'other pails beside it make warming take longer',
  'opening-hours': 'the room is not open',
  'members-hours': 'the member cannot come',
  'potting-day': 'seeding and potting must be done on one day',
  'latest-pot-day': 'it must be potted by the day that was named',
  durations: 'warming and cooling take as long as they take',
};

function obstacleInWords({ reason, slot, stationId }: Obstacle, { stations }: Telling): string {
  const name = stationId === null ? undefined : stations.get(stationId)?.name;
  const where = name === undefined ? '' : `${name}: `;
  return `${where}${reasonWords[reason]}${slot === null ? '' : ` (${slot})`}`;
}

function whyInWords(why: Alternative['whyNotSooner'], telling: Telling): PlanWhyNotSooner {
  const obstacles = why.obstacles.slice(0, 50).map((obstacle) => ({
    reason: obstacle.reason,
    slot: obstacle.slot,
    stationName:
      obstacle.stationId === null ? null : (telling.stations.get(obstacle.stationId)?.name ?? null),
    inWords: obstacleInWords(obstacle, telling),
  }));
  const pottedAt = why.pottedAt === null ? null : iso(why.pottedAt);
  const told = obstacles.slice(0, 5).map(({ inWords }) => inWords);
  const sooner =
    why.pottedAt === null
      ? ''
      : ` Without ${why.binds === 'each' || told.length === 1 ? 'it' : 'all of these together'} it could be potted ${timeInWords(why.pottedAt, telling.timeZone)}.`;
  return {
    obstacles,
    pottedAt,
    inWords:
      told.length === 0 ? 'Nothing in the room stands in its way.' : `${told.join('; ')}.${sooner}`,
  };
}

/** What would make a run possible that is not. */
export function changeInWords(change: Change, { timeZone, stations }: Telling): string {
  const potted = `it would be potted ${timeInWords(change.chain.bench.endsAt, timeZone)}`;
  switch (change.kind) {
    case 'pot-later':
      return `Pot later: ${potted}.`;
    case 'fewer-pails':
      return `Take ${change.pails} pails and ${change.crates} crates: ${potted}.`;
    case 'wider-temperature':
      return `Allow ${change.byC} °C more to either side in the cool room: ${potted}.`;
    case 'start-earlier':
      return `Start earlier, ${timeInWords(change.earliestStart, timeZone)}: ${potted}.`;
    case 'other-hours':
      return `Come at other hours: ${potted}.`;
    case 'room-open-longer':
      return `With the room open longer ${potted}: ask a steward.`;
    case 'duty-window':
      return `With ${stations.get(change.stationId)?.name ?? ''} kept for other duties at other times ${potted}: ask a steward.`;
  }
}

const topics: readonly CautionTopic[] = [
  'estimates',
  'burns',
  'mixer',
  'gear',
  'law',
  'bees',
  'infants',
];

export function planCautions(isHeavy: boolean): PlanCaution[] {
  const all: CautionTopic[] = isHeavy ? ['lifting', ...topics] : [...topics];
  return all.map((about) => ({ about, text: cautions[about] }));
}

export function iso(at: number): string {
  return new Date(at).toISOString();
}
