import { Temporal } from '@js-temporal/polyfill';
import { cautions, type CautionTopic } from '../core/cautions';
import type {
  Alternative,
  Change,
  FreedByChangeover,
  Obstacle,
  ObstacleReason,
} from '../core/planning/runs/run';
import type { PlanObstacle, PlanWhyNotSooner } from './plan-alternative.responses';
import type { PlanCaution, PlanChangeover } from './plans.responses';
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

export function whyInWords(
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
