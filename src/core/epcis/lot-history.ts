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
  /** When something first left it; null: nothing did. */
  readonly firstLeftAt: Date | null;
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

export type HistoryPots = {
  readonly batchId: string;
  readonly netMassG: number;
  readonly count: number;
};
