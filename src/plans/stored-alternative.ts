import type { Alternative, Chain, Slot } from '../core/planning/runs/run';
import { spansOverlap } from '../core/planning/station-times';
import { rounded } from '../reckonings/reckoned';
import type { HandsOnMoment, SlotStep } from './plan-alternative.responses';
import type { StoredAlternative, StoredSlot } from './plan-rows';
import { iso, timeInWords, whyInWords, type Telling } from './plan-words';

/** One way through the room as the plan keeps it: its slots, when hands are needed, its cost, and what binds it. */
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
