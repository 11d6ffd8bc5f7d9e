import type { RandomSource } from '../src/core/random';
import type { HoneyStock } from './honey-stock';
import { anyOf, tenths } from './looks';
import { hoursAfter, type BatchRecord, type LotMass, type SourceName } from './records';
import type { RoomDiary, Run } from './room-diary';
import type { SeedStock } from './seed-stock';
import { cabinetC, coolRoomC, type Setting } from './setting-model';
import { cratesFor } from './stay';

export interface Wanted {
  member: string;
  source: SourceName;
  /** Not before that day. */
  from: Date;
  /** It takes longer than most. */
  isSlow: boolean;
  /** It stands longer than its places were booked for. */
  outstays: boolean;
}

export interface Stocks {
  honey: HoneyStock;
  seed: SeedStock;
  diary: RoomDiary;
  random: RandomSource;
  /** Nothing has happened from then on. */
  reference: Date;
}

/** What is settled before the pails go into the cabinet. */
export interface Plan {
  ref: string;
  number: number;
  wanted: Wanted;
  run: Run;
  pails: number;
  honeyG: number;
  honey: LotMass[];
  parts: Setting['honey'];
  source: BatchRecord['source'];
  crates: number;
  seededAt: Date;
  /** Where it is to set. */
  temperatureC: number;
  /** Until when it may stand in the cooling cabinet; null: it goes to the cool room at once. */
  cabinetUntil: Date | null;
}

const pailsG = [12_500, 15_000, 20_000, 25_000];
const mostSeedShare = 0.14;

export function planBatch(number: number, wanted: Wanted, stocks: Stocks): Plan {
  const { random, diary } = stocks;
  const pails = anyOf([1, 1, 2, 2, 3], random);
  // An even number of grams, so that it can be halved.
  const honeyG = pails * anyOf(pailsG, random) - 2 * Math.round(400 * random());
  const run = diary.findRun(wanted.from, pails);
  const crates = cratesFor(honeyG * (1 + mostSeedShare));
  const cabinetUntil = cabinetPlace(diary, run, crates);
  const seededAt = hoursAfter(run.benchFrom, 0.5);
  const shelfC = tenths(coolRoomC(seededAt) + 2 * (random() - 0.5));
  return {
    ref: `B${String(number).padStart(3, '0')}`,
    number,
    wanted,
    run,
    pails,
    honeyG,
    ...takeHoney(number, wanted, honeyG, run.warmFrom, stocks.honey),
    crates,
    seededAt,
    temperatureC: cabinetUntil === null ? shelfC : cabinetC,
    cabinetUntil,
  };
}

function cabinetPlace(diary: RoomDiary, run: Run, crates: number): Date | null {
  const until = run.cabinetCoolsUntil;
  return until !== null && diary.hasRoom('cabinet', run.benchUntil, until, crates) ? until : null;
}

/** The honey of a batch: as a rule one, now and then a second in equal or smaller part. */
function takeHoney(
  number: number,
  { member, source }: Wanted,
  massG: number,
  at: Date,
  stock: HoneyStock,
): Pick<Plan, 'honey' | 'parts' | 'source'> {
  if (number % 17 !== 6) {
    const honey = [stock.take(member, source, massG, at)];
    return { honey, parts: [{ source, fraction: 1 }], source };
  }
  const isHalf = number % 34 === 6;
  const second = source === 'white clover' ? 'fruit blossom' : 'white clover';
  const secondG = Math.round(massG * (isHalf ? 0.5 : 0.3));
  const fraction = secondG / massG;
  return {
    honey: [
      stock.take(member, source, massG - secondG, at),
      stock.take(member, second, secondG, at),
    ],
    parts: [
      { source, fraction: 1 - fraction },
      { source: second, fraction },
    ],
    source: isHalf ? 'mixed' : source,
  };
}
