import { cautions as knownCautions } from '../core/cautions';
import type { SettingOutlook } from '../core/setting/forecast/forecast-setting';
import type { BatchTraits } from '../core/setting/forecast/forecast-batch';
import { outsideInWords } from './covariate-words';
import { MOST_BATCHES } from './club-batches';
import type { Forecast, SettingDay } from './setting-forecast.responses';
import { dayInWords } from './setting-day';

export const method =
  'Days from stirring in the seed until the batch has set. The model: log(days) = the club’s mean + what the floral source adds + what each used trait adds + a spread, ' +
  'with Weibull, log-normal and log-logistic spreads weighed by how well they foretold the club’s own batches; of each batch it is only known between which two looks it set, ' +
  'and one not seen set, also one given up, is known not to have set at its last look. Struck-out looks count for nothing. Floral sources are drawn towards the club’s mean, the more the fewer ' +
  'their batches; the club’s mean is drawn towards what is usual, “a week to a month” (common practice, no source), until its own batches outweigh that. The certainties hold what is not known of the model and how far alike ' +
  'batches differ; on simulated clubs what was said with 80 % certainty came true for 76 to 84 batches of 100, whatever the size of the club. A running batch counts by its last look that found it not set, ' +
  `and its own looks only in that way. The latest ${MOST_BATCHES} batches count. Seed is taken by its logarithm, the honey’s age by the logarithm of 1 + months.`;

/** How much of the forecast comes from the club’s own batches. */
const FEW_BATCHES = 8;
const FEW_OF_A_SOURCE = 4;
const WORTH_A_LOOK = 0.5;

export function coolRoomInWords(
  certaintyPercent: number,
  until: SettingDay | null,
  chancePercent: number | null,
): string {
  if (until === null || chancePercent === null) return 'No day can be named for the cool room.';
  return (
    `Book the cool room for ${until.days} days, until ${dayInWords(until.on)}: of 100 batches like this one ${Math.floor(chancePercent)} have set by then` +
    (chancePercent < certaintyPercent ? '.' : ` (${certaintyPercent} were asked for).`)
  );
}

/** The forecast for who knows no statistics. */
export function forecastInWords(
  { setBy, within, coolRoom, restsOn, isOverdue }: Forecast,
  lastLook: SettingDay | null,
  sourceName: string | null,
): string {
  const [half, most] = setBy;
  const sentences: string[] = [];
  if (lastLook !== null) {
    sentences.push(
      `On ${dayInWords(lastLook.on)}, day ${Math.floor(lastLook.days)}, it had not set.`,
    );
    if (isOverdue) sentences.push('That is later than 95 of 100 such batches.');
  }
  if (half?.by && most?.by) {
    sentences.push(
      `As likely as not it has set by ${dayInWords(half.by.on)} (${daysInWords(half.by)}), in 8 of 10 cases by ${dayInWords(most.by.on)} (${daysInWords(most.by)}).`,
    );
  }
  const central = within[1];
  if (central?.earliest && central.latest && lastLook === null) {
    sentences.push(
      `In 1 of 10 cases it is ready before ${dayInWords(central.earliest.on)}, in 1 of 10 it takes longer than until ${dayInWords(central.latest.on)}.`,
    );
  }
  sentences.push(coolRoom.inWords, restsOnInWords(restsOn, sourceName));
  return sentences.join(' ');
}

function daysInWords({ days }: SettingDay): string {
  const whole = Math.ceil(days);
  return whole === 1 ? '1 day' : `${whole} days`;
}

function restsOnInWords(restsOn: Forecast['restsOn'], sourceName: string | null): string {
  const { batchCount, sameSourceCount } = restsOn;
  if (batchCount === 0) {
    return 'The club has no batches yet that somebody looked at: this rests on what is usual, a week to a month.';
  }
  const own = ofThisSourceInWords(batchCount, sameSourceCount, sourceName ?? 'mixed honey');
  const whole = batchCount === 1 ? '1 batch' : `${batchCount} batches`;
  const start = `It rests on ${whole} of the club${own}`;
  return batchCount < FEW_BATCHES
    ? `${start}, and as these are few also on what is usual, a week to a month.`
    : `${start}.`;
}

function ofThisSourceInWords(all: number, same: number | null, name: string): string {
  if (same === null) return ', of any floral source';
  if (same === 0) return `, none of ${name}`;
  if (same < all) return `, ${same} of ${name}`;
  return all === 1 ? `, of ${name}` : `, all of ${name}`;
}

export interface CautionsWanted {
  outlook: SettingOutlook;
  traits: BatchTraits;
  sourceName: string | null;
  /** The club’s list says that the floral source does not set, and yet batches of it did. */
  listedAsNotSetting: boolean;
}

export function cautionsOf(wanted: CautionsWanted): string[] {
  const { outlook, traits, sourceName, listedAsNotSetting } = wanted;
  const { all, ofThisSource } = outlook.restsOn;
  const texts: string[] = [knownCautions.estimates];
  const chanceByToday = outlook.chanceByToday ?? 0;
  if (chanceByToday >= WORTH_A_LOOK) {
    texts.push(
      `By now it has set with a chance of ${Math.floor(100 * chanceByToday)} in 100, and nobody has looked since: go and see.`,
    );
  }
  if (outlook.isOverdue) {
    texts.push(
      'It takes far longer than such batches do. See whether the seed melted, the room is too warm, or the honey hardly sets at all; the days named are less certain than usual.',
    );
  }
  if (all.batches > 0 && ofThisSource !== null && ofThisSource.batches < FEW_OF_A_SOURCE) {
    texts.push(
      `The club has ${ofThisSource.batches === 0 ? 'no batch' : `only ${ofThisSource.batches} ${ofThisSource.batches === 1 ? 'batch' : 'batches'}`} of ${sourceName ?? 'mixed honey'} that somebody looked at: other floral sources, and what is usual, stand in.`,
    );
  }
  if (ofThisSource === null) {
    texts.push('The floral source is not known: name it, and the forecast gets narrower.');
  }
  if (listedAsNotSetting) {
    texts.push(`The club’s list says that ${sourceName} does not set, but batches of it have.`);
  }
  texts.push(...outlook.covariates.flatMap((one) => outsideInWords(one, traits) ?? []));
  return texts;
}
