import type { RandomSource } from '../src/core/random';
import { sources } from './club';
import { dayOf, daysAfter, type HoneyLotRecord, type LotMass, type SourceName } from './records';

const restedDays = 6;
const keptDays = 330;

/** The members' honey as it was brought in, drawn down batch by batch. */
export class HoneyStock {
  readonly lots: HoneyLotRecord[] = [];
  private readonly leftG = new Map<string, number>();

  constructor(private readonly random: RandomSource) {}

  /** So much of one honey of that member: from a lot that is there, else from a new one. */
  take(member: string, source: SourceName, massG: number, at: Date): LotMass {
    const fresh = dayOf(daysAfter(at, -keptDays));
    const lot =
      this.lots.find(
        (one) =>
          one.member === member &&
          one.source === source &&
          one.extractedOn > fresh &&
          this.left(one.ref) >= massG,
      ) ?? this.bringIn(member, source, massG, at);
    this.draw(lot.ref, massG);
    return { lot: lot.ref, massG };
  }

  left(ref: string): number {
    return this.leftG.get(ref) ?? 0;
  }

  draw(ref: string, massG: number): void {
    this.leftG.set(ref, this.left(ref) - massG);
  }

  private bringIn(member: string, source: SourceName, leastG: number, at: Date): HoneyLotRecord {
    const lot = {
      ref: `H${String(this.lots.length + 1).padStart(3, '0')}`,
      member,
      source,
      massG: Math.ceil((leastG * (1 + 1.5 * this.random())) / 500) * 500,
      extractedOn: lastExtraction(source, daysAfter(at, -restedDays)),
      moisturePercent: Math.round((15.6 + 2.6 * this.random()) * 10) / 10,
    };
    this.lots.push(lot);
    this.leftG.set(lot.ref, lot.massG);
    return lot;
  }
}

/** The last day before `at` on which that honey was extracted. */
function lastExtraction(source: SourceName, at: Date): string {
  const day = sources.find(({ name }) => name === source)?.extracted ?? '07-01';
  const thisYear = `${at.getUTCFullYear()}-${day}`;
  return thisYear <= dayOf(at) ? thisYear : `${at.getUTCFullYear() - 1}-${day}`;
}
