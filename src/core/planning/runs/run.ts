import type { Duty, Span, StationBooking, StationTimes } from '../station-times';

/** A temperature band, both ends included, in degrees Celsius. */
export type Band = { readonly minC: number; readonly maxC: number };

export type RoomBooking = StationBooking & { readonly id: string };

/** A time in which a station serves one duty alone. */
export type RoomDutyWindow = Span & { readonly duty: Duty };

export type RoomStation = StationTimes<RoomBooking> & {
  readonly stationId: string;
  readonly duties: readonly Duty[];
  readonly dutyWindows: readonly RoomDutyWindow[];
};

/**
 * The room as far as a run may reach: from `earliestStart` until the latest potting, the longest wait for
 * the shelf and the hold in the cool room are over. Spans in any order.
 */
export type Room = {
  readonly stations: readonly RoomStation[];
  /** When the room is open. */
  readonly openSpans: readonly Span[];
  /** The local days, each from its midnight to the next. */
  readonly days: readonly Span[];
};

/**
 * One way to warm the honey in one cabinet. Where the pails may stay in longer than they must, give each
 * length as an option of its own, with the heat it costs.
 */
export type WarmingOption = {
  readonly setpointC: number;
  /** The band that other bookings of the cabinet have to share. */
  readonly minC: number;
  readonly maxC: number;
  /**
   * Whole minutes until clear, beside so many other pails: with more of them, never shorter. Asked for 0 up to
   * one less than the places of the cabinet.
   */
  readonly minutes: (otherPails: number) => number;
  /** Whole minutes from taking the pails out (or switching the heater off) until the honey may be seeded. */
  readonly coolingMinutes: number;
  readonly energyKWh: number;
  readonly diastaseLeftPercent: number;
  readonly hmfGainedMgPerKg: number;
};

export type Preference = 'soonest' | 'gentlest' | 'shortest-hold';

/** One batch's way through the room. Instants in whole epoch milliseconds, durations in whole minutes. */
export type Run = {
  readonly preference: Preference;
  readonly earliestStart: number;
  /** How early a run might start instead, such as now: for a wish that cannot be met. Else `earliestStart`. */
  readonly notBefore?: number;
  /** By then the honey is potted: the bench is left. */
  readonly latestPotAt: number;
  /** When the member can come. */
  readonly memberSpans: readonly Span[];
  readonly pails: number;
  /** By station; a station that is not named here, or has no duty `warm`, does not warm this run. */
  readonly warming: ReadonlyMap<string, readonly WarmingOption[]>;
  /**
   * The band of a cabinet that cools with its heater off and the pails in their places; null when they are
   * taken out and cool anywhere in the room.
   */
  readonly coolsInPlace: Band | null;
  /** How long honey that is cool enough may wait for the bench. */
  readonly maxStandMinutes: number;
  readonly bench: Band & { readonly places: number; readonly minutes: number };
  /** How long filled pots may wait for the cool room. */
  readonly maxShelveMinutes: number;
  readonly cool: Band & { readonly crates: number; readonly minutes: number };
};

/** Places to be booked as they are. */
export type Slot = Span &
  Band & {
    readonly stationId: string;
    readonly duty: Duty;
    readonly placeIds: readonly string[];
  };

/** A whole run: every slot can be booked. */
export type Chain = {
  readonly warm: Slot;
  readonly option: WarmingOption;
  /** The most other pails beside which the honey is warmed: they decide how long it takes. */
  readonly otherPails: number;
  /** The same places with the heater off; null when the honey cools outside of the cabinet. */
  readonly coolDown: Slot | null;
  /** When the honey is cool enough to be seeded. */
  readonly coolEnoughAt: number;
  /** Seed is stirred in and the honey potted; it is all potted at the end. */
  readonly bench: Slot;
  readonly cool: Slot;
  /** Places of all slots times the minutes they are held. */
  readonly placeMinutes: number;
};

/** What can stand in the way of a run. Those of a slot first, then those of the run as a whole. */
export type ObstacleReason =
  | 'places'
  | 'temperature'
  | 'changeover'
  | 'other-duty'
  | 'closed'
  | 'duty-window'
  | 'other-pails'
  | 'opening-hours'
  | 'members-hours'
  | 'potting-day'
  | 'latest-pot-day'
  | 'durations';

export type SlotName = 'warm' | 'bench' | 'cool';

/**
 * One constraint, and what it consists of where the run would be without it. `other-pails`: with them the
 * warming takes longer. `potting-day`: seeding and potting on one local day. `durations`: nothing but the
 * lengths of the run itself, from its earliest start on.
 */
export type Obstacle = {
  readonly reason: ObstacleReason;
  /** The slot of the run, and the station; null for a reason that concerns the run as a whole. */
  readonly slot: SlotName | null;
  readonly stationId: string | null;
  readonly bookings: readonly RoomBooking[];
  /** The closures or duty windows concerned. */
  readonly spans: readonly Span[];
  /** When the honey would be potted: without this one, or without all of them if only that helps. */
  readonly pottedAt: number;
};

export type WhyNotSooner = {
  /**
   * `each`: without any one of the obstacles the honey could be potted sooner. `together`: only without all
   * of them, and none can be left out. With `durations` alone nothing would make it sooner.
   */
  readonly binds: 'each' | 'together';
  readonly obstacles: readonly Obstacle[];
};

export type Alternative = {
  /** What it is the best at, the wished preference first. */
  readonly preferences: readonly Preference[];
  readonly chain: Chain;
  readonly whyNotSooner: WhyNotSooner;
};

/** A duty window that would let a station change over to this run, sooner than any alternative. */
export type FreedByChangeover = {
  readonly stationId: string;
  readonly window: RoomDutyWindow;
  /** The windows of other duties that it would take time from. */
  readonly instead: readonly RoomDutyWindow[];
  readonly chain: Chain;
};

/** One change to the wish or the room that makes a run possible, with the run it would be. */
export type Change = (
  | { readonly kind: 'pot-later'; readonly latestPotAt: number }
  | { readonly kind: 'fewer-pails'; readonly pails: number; readonly crates: number }
  | { readonly kind: 'wider-temperature'; readonly byC: number }
  | { readonly kind: 'start-earlier'; readonly earliestStart: number }
  | { readonly kind: 'other-hours' }
  | { readonly kind: 'room-open-longer' }
  | { readonly kind: 'duty-window'; readonly stationId: string; readonly windows: readonly Span[] }
) & { readonly chain: Chain };

export type RunPlan =
  | {
      readonly feasible: true;
      readonly alternatives: readonly Alternative[];
      readonly freedByChangeover: FreedByChangeover | null;
    }
  | {
      readonly feasible: false;
      /** What would have to go for the run to be possible, all of it; empty when nothing would help. */
      readonly whyNot: readonly Obstacle[];
      /** Single changes that would do, in the order of `smallestChanges`; empty when none does. */
      readonly changes: readonly Change[];
    };
