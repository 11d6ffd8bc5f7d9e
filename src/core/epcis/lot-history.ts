import type { LotKind } from '../lineage/seed-line';

/** Everything on record of a lot and of all that is in it. Masses are whole grams. */
export type LotHistory = {
  readonly lotId: string;
  readonly clubId: string;
  /** IANA name, in which the club reads its clock. */
  readonly timeZone: string;
  readonly lots: readonly HistoryLot[];
  readonly inputs: readonly HistoryInput[];
  readonly movements: readonly HistoryMovement[];
  readonly loans: readonly HistoryLoan[];
  readonly temperatures: readonly HistoryTemperature[];
  readonly logged: readonly HistoryLogged[];
  readonly pots: readonly HistoryPots[];
};

export type HistoryLot = {
  readonly id: string;
  readonly code: string;
  readonly kind: LotKind;
  readonly name: string;
  readonly initialMassG: number;
  readonly batchId: string | null;
  /** In the member's words. */
  readonly origin: string;
  readonly extractedOn: string | null;
  readonly recordedAt: Date;
  /** When it was first loaded to be warmed, or something left it; null: neither happened. */
  readonly firstUsedAt: Date | null;
  readonly floralShares: readonly { readonly name: string; readonly percent: number }[];
  readonly originShares: readonly { readonly countryCode: string; readonly percent: number }[];
};

export type HistoryInput = {
  readonly childId: string;
  readonly parentId: string;
  readonly massG: number;
  readonly at: Date;
};

/** Mass that went into no other lot. */
export type HistoryMovement = {
  readonly id: string;
  readonly lotId: string;
  readonly kind: 'used' | 'potted' | 'lost';
  readonly massG: number;
  readonly at: Date;
  readonly recordedAt: Date;
};

export type HistoryLoan = {
  readonly id: string;
  readonly toLotId: string;
  readonly lenderId: string;
  readonly borrowerId: string;
};

/** Of the honey of a batch, as it was noted with a step up to the seeding. */
export type HistoryTemperature = {
  readonly batchId: string;
  readonly at: Date;
  readonly deciC: number;
};

/** What one probe read while a batch was warmed until it was clear, or stood until it had set. */
export type HistoryLogged = {
  readonly batchId: string;
  readonly stretch: 'warming' | 'setting';
  readonly probeId: string;
  /** In the batch's honey, or in the station where it stood. */
  readonly probeIn: 'honey' | 'station';
  /** When the stretch was over. */
  readonly at: Date;
  readonly firstAt: Date;
  readonly lastAt: Date;
  readonly minDeciC: number;
  readonly maxDeciC: number;
  /** Of the means of the hours in which something was read, so that no hour counts for more because it was read more often. */
  readonly meanDeciC: number;
  readonly readings: number;
  /** The last of the readings, or of the steps that began and ended the stretch. */
  readonly recordedAt: Date;
};

export type HistoryPots = {
  readonly batchId: string;
  readonly netMassG: number;
  readonly count: number;
};
