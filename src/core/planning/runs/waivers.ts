import type { ObstacleReason, SlotName } from './run';

export const SLOT_REASONS = [
  'changeover',
  'other-duty',
  'temperature',
  'places',
  'closed',
  'duty-window',
] as const satisfies readonly ObstacleReason[];

export const RUN_REASONS = [
  'other-pails',
  'opening-hours',
  'members-hours',
  'potting-day',
  'latest-pot-day',
] as const satisfies readonly ObstacleReason[];

export type SlotReason = (typeof SLOT_REASONS)[number];

export type RunReason = (typeof RUN_REASONS)[number];

/** A constraint that a search leaves out, to find out whether it binds: of one slot, or of the run as a whole. */
export type Waiver = `${SlotName} ${SlotReason}` | RunReason;

export type Waivers = ReadonlySet<Waiver>;

export const NOTHING_WAIVED: Waivers = new Set();

const SLOTS: readonly SlotName[] = ['warm', 'bench', 'cool'];

/** All that can be waived, those of one slot together. */
export const WAIVER_GROUPS: readonly (readonly Waiver[])[] = [
  ...SLOTS.map((slot) => SLOT_REASONS.map((reason): Waiver => `${slot} ${reason}`)),
  ...RUN_REASONS.map((reason): Waiver[] => [reason]),
];

/** The slot and the reason of a waiver; null for one of the run as a whole. */
export function slotOf(waiver: Waiver): { slot: SlotName; reason: SlotReason } | null {
  const [slot, reason] = waiver.split(' ');
  return reason === undefined ? null : { slot: slot as SlotName, reason: reason as SlotReason };
}
