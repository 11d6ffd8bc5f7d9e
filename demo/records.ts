/** The demo's records as plain data: who, what and when. Masses in grams, times in UTC; things name each other by their ref. */

export type SourceName =
  | 'oilseed rape'
  | 'dandelion'
  | 'fruit blossom'
  | 'white clover'
  | 'lime'
  | 'phacelia'
  | 'sunflower'
  | 'sweet chestnut'
  | 'heather'
  | 'robinia';

export type StationRef = 'cabinet' | 'coolRoom' | 'bench';
export type Duty = 'warm' | 'cool' | 'bench';

export interface LotMass {
  lot: string;
  massG: number;
}

export interface HoneyLotRecord {
  /** Such as H012. */
  ref: string;
  member: string;
  source: SourceName;
  massG: number;
  /** A day, YYYY-MM-DD. */
  extractedOn: string;
  moisturePercent: number;
}

/** Seed that was bought: the beginning of a seed line. */
export interface BoughtSeedRecord {
  /** Such as S1. */
  ref: string;
  member: string;
  source: SourceName;
  massG: number;
}

export interface LoanRecord {
  /** Such as L03: also the ref of the lot that the borrower got. */
  ref: string;
  fromLot: string;
  lender: string;
  borrower: string;
  massG: number;
  at: Date;
  dueOn: string;
}

/** Seed given back for a loan. */
export interface LoanReturnRecord {
  /** Such as R03. */
  ref: string;
  loan: string;
  fromLot: string;
  borrower: string;
  massG: number;
  at: Date;
}

/** The lender waives what is still owed. */
export interface LoanEndRecord {
  loan: string;
  lender: string;
  note: string;
}

export interface BookingRecord {
  ref: string;
  station: StationRef;
  duty: Duty;
  minC: number;
  maxC: number;
  startsAt: Date;
  endsAt: Date;
  places: number;
  loadG: number;
  batch: string;
  member: string;
}

export interface StepRecord {
  kind: 'loaded' | 'cleared' | 'cooled' | 'seeded' | 'potted' | 'shelved' | 'abandoned';
  at: Date;
  temperatureC?: number;
  note?: string;
}

export interface LookRecord {
  at: Date;
  state: 'liquid' | 'thickening' | 'set';
  texture?: 'smooth' | 'grainy' | 'gritty';
  firmness: 'soft' | 'spreadable' | 'firm';
  temperatureC: number;
  /** Who looked. */
  member: string;
}

export interface Potting {
  pots: { netMassG: number; count: number }[];
  /** 0: none was put by. */
  seedPutByG: number;
  lossG: number;
}

export type Outcome =
  | 'set'
  | 'still setting'
  | 'not seen set'
  | 'never looked at'
  | 'abandoned'
  | 'warming'
  | 'planned';

export interface BatchRecord {
  /** Such as B017; the seed it put by is B017-seed. */
  ref: string;
  member: string;
  source: SourceName | 'mixed';
  honey: LotMass[];
  /** Empty until seed was stirred in. */
  seed: LotMass[];
  lossAtSeedingG: number;
  /** Null until seed was stirred in. */
  seededAt: Date | null;
  settingTemperatureC: number | null;
  potting: Potting | null;
  steps: StepRecord[];
  looks: LookRecord[];
  bookings: BookingRecord[];
  outcome: Outcome;
  /** It still stands where its last booking is over. */
  outstays: boolean;
}

export interface ClosureRecord {
  ref: string;
  station: StationRef;
  startsAt: Date;
  endsAt: Date;
  reason: string;
}

export interface WithdrawalRecord {
  ref: string;
  lot: string;
  member: string;
  kind: 'lost' | 'used' | 'potted';
  massG: number;
  at: Date;
  note: string;
}

export interface Season {
  referenceDay: string;
  honeyLots: HoneyLotRecord[];
  boughtSeed: BoughtSeedRecord[];
  loans: LoanRecord[];
  returns: LoanReturnRecord[];
  waived: LoanEndRecord[];
  batches: BatchRecord[];
  closures: ClosureRecord[];
  withdrawals: WithdrawalRecord[];
}

export const minuteMs = 60_000;
export const hourMs = 3_600_000;
export const dayMs = 86_400_000;

/** The ref of the seed that a batch put by. */
export function seedOf(batchRef: string): string {
  return `${batchRef}-seed`;
}

/** The ref of the creamed lot that a batch made. */
export function creamedOf(batchRef: string): string {
  return `${batchRef}-creamed`;
}

export function sumG(parts: readonly LotMass[]): number {
  return parts.reduce((sum, { massG }) => sum + massG, 0);
}

/** What a batch made: all that went in, less what stuck to the tools. */
export function creamedG({ honey, seed, lossAtSeedingG }: BatchRecord): number {
  return sumG(honey) + sumG(seed) - lossAtSeedingG;
}

/** What is left of it after potting. */
export function leftAfterPottingG(batch: BatchRecord): number {
  if (batch.potting === null) return creamedG(batch);
  const { pots, seedPutByG, lossG } = batch.potting;
  const pottedG = pots.reduce((sum, { netMassG, count }) => sum + netMassG * count, 0);
  return creamedG(batch) - pottedG - seedPutByG - lossG;
}

export function hoursAfter(start: Date, hours: number): Date {
  return new Date(start.getTime() + hours * hourMs);
}

export function daysAfter(start: Date, days: number): Date {
  return hoursAfter(start, days * 24);
}

export function dayOf(time: Date): string {
  return time.toISOString().slice(0, 10);
}

export function startOfDay(time: Date): Date {
  return new Date(Math.floor(time.getTime() / dayMs) * dayMs);
}
