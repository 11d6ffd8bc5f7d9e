import type { RandomSource } from '../src/core/random';
import {
  dayOf,
  daysAfter,
  hoursAfter,
  type BoughtSeedRecord,
  type LoanRecord,
  type LotMass,
  type SourceName,
} from './records';

import { SeedDebts } from './seed-debts';

interface SeedLot {
  ref: string;
  member: string;
  leftG: number;
  /** Seed is good when the batch that it comes from was seen to have set. */
  goodFrom: Date;
}

const loanDays = 90;
/** How often somebody borrows although they have seed: for fresh grain. */
const borrowsAnyway = 0.15;

/** The members' seed: put by, lent, drawn down, and bought where there is none. The youngest goes first, so lines grow long. */
export class SeedStock {
  readonly bought: BoughtSeedRecord[] = [];
  readonly loans: LoanRecord[] = [];
  private readonly lots: SeedLot[] = [];

  constructor(
    private readonly random: RandomSource,
    readonly debts = new SeedDebts(),
  ) {}

  buy(member: string, source: SourceName, massG: number, goodFrom: Date): SeedLot {
    const ref = `S${this.bought.length + 1}`;
    this.bought.push({ ref, member, source, massG });
    const lot = { ref, member, leftG: massG, goodFrom };
    this.lots.push(lot);
    return lot;
  }

  putBy(ref: string, member: string, massG: number, goodFrom: Date): void {
    this.lots.push({ ref, member, leftG: massG, goodFrom });
  }

  /** Seed for a batch of that member: their own, else borrowed the day before, else bought. */
  take(member: string, source: SourceName, massG: number, at: Date): LotMass[] {
    const isKeen = this.random() < borrowsAnyway;
    const own = this.youngest(at, (lot) => lot.member === member && lot.leftG > 0);
    const enough = own.find(({ leftG }) => leftG >= massG);
    if (enough !== undefined && !isKeen) return [draw(enough, massG)];

    const [first, second] = own;
    if (first !== undefined && second !== undefined && first.leftG + second.leftG >= massG) {
      const rest = massG - first.leftG;
      return rest > 0 ? [draw(first, first.leftG), draw(second, rest)] : [draw(first, massG)];
    }
    const lent = this.borrow(member, massG, at) ?? enough;
    return [draw(lent ?? this.buy(member, source, boughtFor(massG), at), massG)];
  }

  private borrow(borrower: string, massG: number, seededAt: Date): SeedLot | undefined {
    const at = hoursAfter(seededAt, -20);
    const [from] = this.youngest(at, (lot) => lot.member !== borrower && lot.leftG >= massG);
    if (from === undefined) return undefined;
    const lentG = Math.min(from.leftG, Math.ceil(massG / 500) * 500);
    const ref = `L${String(this.loans.length + 1).padStart(2, '0')}`;
    draw(from, lentG);
    const loan = {
      ref,
      fromLot: from.ref,
      lender: from.member,
      borrower,
      massG: lentG,
      at,
      dueOn: dayOf(daysAfter(at, loanDays)),
    };
    this.loans.push(loan);
    this.debts.lent(loan);
    const lot = { ref, member: borrower, leftG: lentG, goodFrom: at };
    this.lots.push(lot);
    return lot;
  }

  private youngest(at: Date, isMeant: (lot: SeedLot) => boolean): SeedLot[] {
    return this.lots
      .filter((lot) => lot.goodFrom < at && isMeant(lot))
      .sort((a, b) => b.goodFrom.getTime() - a.goodFrom.getTime());
  }
}

function draw(lot: SeedLot, massG: number): LotMass {
  lot.leftG -= massG;
  return { lot: lot.ref, massG };
}

/** Five kilograms, or more for a large batch. */
function boughtFor(massG: number): number {
  return Math.max(5000, Math.ceil(massG / 500) * 500);
}
