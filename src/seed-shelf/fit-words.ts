import type { RankedSeed, SeedWish } from '../core/planning/rank-seed';
import type { SeedLot } from '../core/planning/rank-seed';
import { kgOf } from '../platform/fields';
import { rounded } from '../reckonings/reckoned';
import type { KnownSeed } from './shelf-lot';

/** Seed as it is ranked, with what the shelf knows of it. */
export type FitLot = SeedLot & { seed: KnownSeed };

/** Older seed is to be looked at first. Common practice, no source. */
const oldSeedDays = 365;

export const method =
  'First by what speaks against it (nothing, too coarse, too little, on hold); then seed of known grain, nearer in floral source, smoother in the batches it made, finer, one’s own, fresher. Common practice, no source; the scale of texture is our own choice.';

/** Why a lot stands where it stands, one sentence for each thing that was looked at. */
export function whyThis(
  { lot, obstacles, percentInCommon }: RankedSeed<FitLot>,
  wish: SeedWish,
  ageDays: number,
): string[] {
  return [
    ...(obstacles.includes('on-hold')
      ? ['It is on hold: it may not be used until it is released.']
      : []),
    massWords(lot, wish, obstacles.includes('too-little')),
    grainWords(lot, wish, obstacles.includes('too-coarse')),
    floralWords(lot, wish, percentInCommon),
    textureWords(lot.seed),
    ageWords(ageDays),
    ...(lot.isOwn === false ? [`${lot.seed.lot.holderName} holds it: it must be borrowed.`] : []),
  ];
}

function massWords({ freeMassG, seed }: FitLot, { massG }: SeedWish, isTooLittle: boolean): string {
  const others = seed.lot.remainingMassG - freeMassG;
  const reserved = others > 0 ? `; ${kgOf(others)} kg more are reserved for other batches` : '';
  return isTooLittle
    ? `Too little: ${kgOf(freeMassG)} kg are free of the ${kgOf(massG)} kg that the honey takes${reserved}.`
    : `Enough: ${kgOf(freeMassG)} kg are free, and the honey takes ${kgOf(massG)} kg${reserved}.`;
}

function grainWords({ grain }: FitLot, { honeyGrain }: SeedWish, isTooCoarse: boolean): string {
  if (grain === null) return 'Its grain is not on record: look at it first.';
  if (honeyGrain === null)
    return `It is ${grain}; in which grain the honey would set is not known.`;
  return isTooCoarse
    ? `Too coarse: it is ${grain}, and ${honeyGrain} is the coarsest that will do; the batch takes the grain of its seed.`
    : `It is ${grain}, no coarser than ${honeyGrain}.`;
}

function floralWords({ floralParts }: FitLot, wish: SeedWish, percentInCommon: number): string {
  if (wish.floralParts.size === 0) return 'Of which floral sources the honey is was not said.';
  if (floralParts.size === 0) return 'Its floral sources are not on record.';
  return percentInCommon === 0
    ? 'It has no floral source in common with the honey: mind the label.'
    : `${percentInCommon} percent of seed and honey are of the same floral sources.`;
}

function textureWords({ lot: { textures }, texture }: KnownSeed): string {
  const { batches, score, pooledScore } = texture;
  if (score === null || pooledScore === null)
    return 'No batch made with it has been looked at yet.';
  const became = Object.entries(textures)
    .filter(([, count]) => count > 0)
    .map(([word, count]) => `${count} ${word}`);
  return `Of ${batches} ${batches === 1 ? 'batch' : 'batches'} made with it ${became.join(', ')}: ${rounded(score, 2)} of 1, ${rounded(pooledScore, 2)} when drawn towards the club’s mean.`;
}

function ageWords(ageDays: number): string {
  return ageDays > oldSeedDays
    ? `It is ${ageDays} days old, and crystals of old seed have grown: look at it first.`
    : `It is ${ageDays} ${ageDays === 1 ? 'day' : 'days'} old.`;
}

/** The answer in one or two sentences. */
export function bestInWords(ranked: readonly RankedSeed<FitLot>[], isSeeded: boolean): string {
  const [best] = ranked;
  const seeded = isSeeded ? 'Seed was stirred into this batch already. ' : '';
  if (best === undefined) {
    return `${seeded}Nobody in the club has seed on record: bring some in.`;
  }
  const { name, holderName } = best.lot.seed.lot;
  const whose = best.lot.isOwn === false ? `, to be borrowed from ${holderName}` : '';
  if (best.obstacles.length === 0) return `${seeded}“${name}” fits best${whose}.`;
  return `${seeded}No seed fits. The nearest is “${name}”${whose}: ${best.obstacles.join(', ')}.`;
}

/** What was not looked at, in words; nothing, when all was. */
export function leftOutInWords(leftOut: number): string {
  return leftOut === 0
    ? ''
    : ` ${leftOut} more ${leftOut === 1 ? 'lot of seed was' : 'lots of seed were'} not compared: those of enough mass and of a grain that will do came first, of them your own and the newest.`;
}
