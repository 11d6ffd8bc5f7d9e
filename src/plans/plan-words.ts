import { cautions, type CautionTopic } from '../core/cautions';
import type {
  Alternative,
  Chain,
  Change,
  FreedByChangeover,
  Obstacle,
  ObstacleReason,
  Slot,
} from '../core/planning/runs/run';
import { spansOverlap } from '../core/planning/station-times';
import { Temporal } from '@js-temporal/polyfill';
import { rounded } from '../reckonings/reckoned';
import type { StoredAlternative, StoredSlot } from './plan-rows';
import type {
  HandsOnMoment,
  PlanCaution,
  PlanChangeover,
  PlanObstacle,
  PlanWhyNotSooner,
  SlotStep,
} from './plans.responses';
import type { StationRow } from './room-rows';

const mostObstacles = 50;

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
  const otherPails = placesBeside(chain.warm, telling);
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
      otherPails,
    },
    placeHours: rounded(chain.placeMinutes / 60, 1),
    whyNotSooner: whyInWords(whyNotSooner, telling),
    warnings:
      otherPails === 0
        ? []
        : [
            `${otherPails} other ${otherPails === 1 ? 'place' : 'places'} of the cabinet ${otherPails === 1 ? 'is' : 'are'} booked meanwhile: a weak heater takes longer then. Look at the honey before you take it out.`,
          ],
  };
}

/** How many other places of the station are booked for some of that time. */
function placesBeside({ stationId, startsAt, endsAt }: Slot, { stations }: Telling): number {
  const bookings = stations.get(stationId)?.bookings ?? [];
  const beside = bookings.filter((other) => spansOverlap(other, { startsAt, endsAt }));
  return new Set(beside.flatMap(({ placeIds }) => placeIds)).size;
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
  durations: 'warming, cooling and potting take as long as they take',
};

function obstacleInWords({ reason, slot, stationId }: Obstacle, { stations }: Telling): string {
  const name = stationId === null ? undefined : stations.get(stationId)?.name;
  const where = name === undefined ? '' : `${name}: `;
  return `${where}${reasonWords[reason]}${slot === null ? '' : ` (${slot})`}`;
}

/** What keeps the run from being sooner, or from being at all. */
export function obstaclesOf(obstacles: readonly Obstacle[], telling: Telling): PlanObstacle[] {
  return obstacles.slice(0, mostObstacles).map((obstacle) => ({
    reason: obstacle.reason,
    slot: obstacle.slot,
    stationName:
      obstacle.stationId === null ? null : (telling.stations.get(obstacle.stationId)?.name ?? null),
    pottedAt: iso(obstacle.pottedAt),
    inWords: obstacleInWords(obstacle, telling),
  }));
}

function whyInWords(
  { binds, obstacles }: Alternative['whyNotSooner'],
  telling: Telling,
): PlanWhyNotSooner {
  const [soonest] = obstacles.toSorted((a, b) => a.pottedAt - b.pottedAt);
  const told = obstaclesOf(obstacles, telling);
  const words = told.slice(0, 4).map(({ inWords }) => inWords);
  const when =
    soonest === undefined || soonest.reason === 'durations'
      ? ''
      : ` Without ${binds === 'each' ? (told.length === 1 ? 'it' : 'one of them') : 'all of these'} it could be potted ${timeInWords(soonest.pottedAt, telling.timeZone)}.`;
  return {
    binds,
    obstacles: told,
    inWords:
      words.length === 0 ? 'Nothing stands in its way.' : `${sentence(words.join('; '))}${when}`,
  };
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** A duty window with which a station would change over in time. */
export function changeoverInWords(
  freed: FreedByChangeover | null,
  telling: Telling,
): PlanChangeover | null {
  if (freed === null) return null;
  const { window, chain, stationId } = freed;
  const stationName = telling.stations.get(stationId)?.name ?? '';
  return {
    stationId,
    stationName,
    duty: window.duty,
    startsAt: iso(window.startsAt),
    endsAt: iso(window.endsAt),
    pottedAt: iso(chain.bench.endsAt),
    inWords: `Were ${stationName} kept to ${window.duty} from ${timeInWords(window.startsAt, telling.timeZone)} until ${timeInWords(window.endsAt, telling.timeZone)}, it could be potted ${timeInWords(chain.bench.endsAt, telling.timeZone)}: ask a steward.`,
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
      return `With all temperatures ${change.byC} °C wider to either side ${potted}.`;
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
