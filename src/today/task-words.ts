import type { BatchTask, BatchTaskKind } from '../core/batches/tasks-of-batch';
import { cautions, type CautionTopic } from '../core/cautions';
import { localTime } from '../platform/local-time';
import type { TodayBooking } from './today-rows';

/** What to do, in one sentence, by the clock of the club. */
export function taskSentence(
  { kind, notBefore, dueAt }: BatchTask,
  name: string | null,
  booking: TodayBooking | null,
  timeZone: string,
): string {
  const honey = name === null ? 'your honey' : `“${name}”`;
  const where = booking === null ? '' : ` ${placesOf(booking)}`;
  const time = (at: number | null) => (at === null ? '' : localTime(new Date(at), timeZone));
  const from = notBefore === null ? '' : ` from ${time(notBefore)}`;
  const by = dueAt === null ? '' : ` by ${time(dueAt)}`;
  switch (kind) {
    case 'load':
      return `Put ${honey} into${where}${from}.`;
    case 'take-out':
      return `Look whether ${honey} is clear, and take it out${where === '' ? '' : ` of${where}`}${by}.`;
    case 'seed':
      return `Stir the seed into ${honey}${where === '' ? '' : ` at${where}`}${from}${dueAt === null ? '' : ` until ${time(dueAt)}`}, once it is cool enough.`;
    case 'pot':
      return `Pot ${honey}${by}, before it thickens, and write down pots, seed put by and loss.`;
    case 'shelve':
      return `Put the pots of ${honey} ${where === '' ? 'where it is cool' : `into${where}`}${by}.`;
    case 'check':
      return `Look how ${honey} has set${by}.`;
    case 'clear':
      return `Clear${where}: ${honey} needs ${booking?.places.length === 1 ? 'it' : 'them'} no more${by}.`;
  }
}

function placesOf({ stationName, places }: TodayBooking): string {
  if (places.length === 0) return stationName;
  return `${stationName}, ${places.length === 1 ? 'place' : 'places'} ${places.join(', ')}`;
}

const topics: Record<BatchTaskKind, CautionTopic[]> = {
  load: ['lifting'],
  'take-out': ['lifting', 'burns', 'estimates'],
  seed: ['mixer', 'burns', 'gear'],
  pot: ['gear', 'law'],
  shelve: [],
  check: ['estimates'],
  clear: [],
};

export function taskCautions(kind: BatchTaskKind): string[] {
  return topics[kind].map((topic) => cautions[topic]);
}
