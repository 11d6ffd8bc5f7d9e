import { seededRandom, type RandomSource } from '../src/core/random';
import type { Stocks, Wanted } from './batch-plan';
import { makeBatch } from './batch-story';
import { members, sources } from './club';
import { HoneyStock } from './honey-stock';
import { anyOf } from './looks';
import {
  daysAfter,
  hoursAfter,
  creamedOf,
  leftAfterPottingG,
  type BatchRecord,
  type Season,
  type SourceName,
  type WithdrawalRecord,
} from './records';
import { RoomDiary } from './room-diary';
import { SeedStock } from './seed-stock';

const seasonDays = 730;
/** Besides those of the last weeks. */
const ordinaryBatches = 119;

/** How much creaming is done in each month, from January: most of it after the harvest. */
const monthWeights = [7, 6, 5, 4, 4, 6, 10, 11, 12, 13, 12, 10];

/**
 * Two seasons of the invented club up to the reference day, which is not over yet, and what is booked ahead: all records, in an order in which
 * they can be entered. The same seed and day give the same records. Throws RangeError for a day that is none.
 */
export function makeSeason(seed: number, referenceDay: string): Season {
  const reference = new Date(`${referenceDay}T00:00:00Z`);
  if (Number.isNaN(reference.getTime())) {
    throw new RangeError(`referenceDay must be a day such as 2026-11-01, got ${referenceDay}`);
  }
  const random = seededRandom(seed);
  const start = daysAfter(reference, -seasonDays);
  const stocks: Stocks = {
    honey: new HoneyStock(random),
    seed: new SeedStock(random),
    diary: new RoomDiary(start, daysAfter(reference, 60)),
    random,
    reference,
  };
  for (const [index, { ref }] of members.slice(0, 2).entries()) {
    stocks.seed.buy(ref, index === 0 ? 'white clover' : 'oilseed rape', 6000, start);
  }
  const batches = wishes(start, reference, random).map((wanted, index) =>
    makeBatch(index + 1, wanted, stocks),
  );
  return {
    referenceDay,
    honeyLots: stocks.honey.lots,
    boughtSeed: stocks.seed.bought,
    loans: stocks.seed.loans,
    waived: stocks.seed.debts.settle(reference),
    returns: stocks.seed.debts.returns,
    batches,
    closures: stocks.diary.closures,
    withdrawals: withdrawals(batches, stocks.honey, reference),
  };
}

/** Who wants to cream what, and from which day on: spread over the months, then what is in hand just now. */
function wishes(start: Date, reference: Date, random: RandomSource): Wanted[] {
  const days: Date[] = [];
  const share = ordinaryBatches / totalWeight(start, reference);
  let due = 0;
  for (let day = start; day < daysAfter(reference, -26); day = daysAfter(day, 1)) {
    due += share * monthWeight(day);
    for (; days.length < Math.min(ordinaryBatches, Math.round(due));) days.push(day);
  }
  const ordinary = days.map((from) => ({ from, source: likelySource(random) }));
  const latest: [number, SourceName][] = [
    [-22, 'sweet chestnut'],
    [-17, 'heather'],
    [-12, 'lime'],
    [-1, 'oilseed rape'],
    [2, 'lime'],
    [3, 'white clover'],
    [5, 'sunflower'],
  ];
  const inHand = latest.map(([day, source], index) => ({
    from: daysAfter(reference, day),
    source,
    isSlow: day < -1,
    outstays: index === 0,
  }));
  return [...ordinary, ...inHand].map((wish) => ({
    isSlow: false,
    outstays: false,
    ...wish,
    member: anyOf(members, random).ref,
  }));
}

function monthWeight(day: Date): number {
  return monthWeights[day.getUTCMonth()] ?? 0;
}

function totalWeight(start: Date, reference: Date): number {
  let sum = 0;
  for (let day = start; day < daysAfter(reference, -26); day = daysAfter(day, 1)) {
    sum += monthWeight(day);
  }
  return sum;
}

function likelySource(random: RandomSource): SourceName {
  let left = random() * 100;
  for (const { name, batchesInHundred } of sources) {
    left -= batchesInHundred;
    if (left < 0) return name;
  }
  return 'lime';
}

/** Small things that happen: a spoon for everybody when a batch has set, clear honey sold, a pail that fell. */
function withdrawals(
  batches: readonly BatchRecord[],
  honey: HoneyStock,
  reference: Date,
): WithdrawalRecord[] {
  const found: Omit<WithdrawalRecord, 'ref'>[] = [];
  for (const [index, batch] of batches.entries()) {
    const seenSet = batch.looks.find(({ state }) => state === 'set');
    if (seenSet === undefined || index % 6 !== 0 || leftAfterPottingG(batch) < 20) continue;
    const lot = creamedOf(batch.ref);
    const { member } = batch;
    found.push({ lot, member, kind: 'used', massG: 20, at: seenSet.at, note: 'Tasted.' });
  }
  for (const [index, { ref: lot, member, extractedOn }] of honey.lots.entries()) {
    const at = hoursAfter(new Date(`${extractedOn}T00:00:00Z`), 20 * 24 + 9);
    if (honey.left(lot) < 3000 || at >= reference || index % 4 !== 0) continue;
    found.push(
      index % 3 === 0
        ? { lot, member, kind: 'lost', massG: 1200, at, note: 'A pail fell.' }
        : { lot, member, kind: 'potted', massG: 2000, at, note: 'Sold clear.' },
    );
  }
  return found.map((one, index) => ({ ...one, ref: `W${index + 1}` }));
}
