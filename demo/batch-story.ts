import type { RandomSource } from '../src/core/random';
import { planBatch, type Plan, type Stocks, type Wanted } from './batch-plan';
import { sources } from './club';
import { endingOf, storyOf } from './ending';
import { anyOf, looksAt, tenths } from './looks';
import {
  creamedG,
  daysAfter,
  hoursAfter,
  seedOf,
  startOfDay,
  type BatchRecord,
  type Potting,
  type StepRecord,
} from './records';
import type { Run } from './room-diary';
import { medianSettingDays, settingDays } from './setting-model';
import { bookRoom } from './stay';

/** A place is booked ahead for no longer than that. */
const longestAheadDays = 60;
const seedPercents = [6, 8, 8, 10, 10, 10, 10, 12, 14];

/** One batch from its pails to the end of its story, as far as that was told by the reference day. */
export function makeBatch(number: number, wanted: Wanted, stocks: Stocks): BatchRecord {
  const plan = planBatch(number, wanted, stocks);
  const batch = unseeded(plan, stocks);
  if (plan.run.benchUntil >= stocks.reference) {
    const expectedDays = medianSettingDays({ ...settingOf(plan), seedPercent: 10 });
    batch.bookings = bookRoom(stocks.diary, {
      ...plan,
      member: wanted.member,
      creamedG: Math.round(plan.honeyG * 1.1),
      fetchedAt: hoursAfter(
        plan.run.benchFrom,
        Math.ceil(Math.min(expectedDays * 1.5, longestAheadDays)) * 24,
      ),
    });
    return batch;
  }
  watch(batch, plan, stirIn(batch, plan, stocks), stocks);
  return batch;
}

function unseeded(plan: Plan, { reference, random }: Stocks): BatchRecord {
  return {
    ref: plan.ref,
    member: plan.wanted.member,
    source: plan.source,
    honey: plan.honey,
    seed: [],
    lossAtSeedingG: 0,
    seededAt: null,
    settingTemperatureC: null,
    potting: null,
    steps: stepsOf(plan.run, plan.temperatureC, random).filter(({ at }) => at < reference),
    looks: [],
    bookings: [],
    outcome: plan.run.warmFrom < reference ? 'warming' : 'planned',
    outstays: plan.wanted.outstays,
  };
}

function settingOf({ parts, temperatureC }: Plan) {
  return { honey: parts, temperatureC };
}

interface StirredIn {
  medianDays: number;
  /** Of the seed that is put by, so much is to be given back to others. */
  owedG: number;
}

/** Honey and seed become creamed honey, which is potted at once. */
function stirIn(batch: BatchRecord, plan: Plan, stocks: Stocks): StirredIn {
  const { random } = stocks;
  const { member, source } = plan.wanted;
  const seedG = Math.round((plan.honeyG * anyOf(seedPercents, random)) / 1000) * 10;
  batch.seed = stocks.seed.take(member, source, seedG, plan.seededAt);
  batch.lossAtSeedingG = 40 + Math.round(120 * random());
  batch.seededAt = plan.seededAt;
  batch.settingTemperatureC = plan.temperatureC;
  const owedG = stocks.seed.debts.putByG(member, creamedG(batch), plan.seededAt);
  batch.potting = fillPots(plan.number, creamedG(batch), owedG, random);
  const seedPercent = (100 * seedG) / plan.honeyG;
  return { medianDays: medianSettingDays({ ...settingOf(plan), seedPercent }), owedG };
}

/** What was seen of it, what became of it, and how long it stood in the room. */
function watch(
  batch: BatchRecord,
  plan: Plan,
  { medianDays, owedG }: StirredIn,
  stocks: Stocks,
): void {
  const { random, reference } = stocks;
  const { member, source, isSlow } = plan.wanted;
  const setsAfterDays = settingDays(medianDays, isSlow ? 0.5 + 0.4 * random() : random());
  const story = storyOf(plan, setsAfterDays);
  const isCoarse = sources.some(({ name, grain }) => name === source && grain === 'coarse');
  batch.looks = looksAt(
    {
      owner: member,
      seededAt: plan.seededAt,
      setsAfterDays,
      medianDays,
      temperatureC: plan.temperatureC,
      isCoarse,
      until: story.endsAt < reference ? story.endsAt : reference,
    },
    random,
  );
  const ending = endingOf(story, batch.looks, { ...plan, medianDays }, stocks);
  batch.outcome = ending.outcome;
  if (ending.abandoned !== null) batch.steps.push(ending.abandoned);
  const ownG = (batch.potting?.seedPutByG ?? 0) - owedG;
  if (ending.setAt !== null) {
    if (ownG > 0) stocks.seed.putBy(seedOf(batch.ref), member, ownG, ending.setAt);
    const at = hoursAfter(startOfDay(daysAfter(ending.setAt, 1)), 17);
    if (at < reference) {
      stocks.seed.debts.giveBack(member, seedOf(batch.ref), owedG, plan.seededAt, at);
    }
  }
  batch.bookings = bookRoom(stocks.diary, {
    ...plan,
    member,
    creamedG: creamedG(batch),
    fetchedAt: ending.fetchedAt,
    cabinetUntil: earlier(plan.cabinetUntil, ending.setAt),
  });
}

function earlier(until: Date | null, setAt: Date | null): Date | null {
  return until !== null && setAt !== null && setAt < until ? setAt : until;
}

/** All that is done to a batch until it stands where it is to set. */
function stepsOf(run: Run, placeC: number, random: RandomSource): StepRecord[] {
  const at = (hours: number) => hoursAfter(run.benchFrom, hours);
  const temperatureC = tenths(24 + 3 * random());
  return [
    { kind: 'loaded', at: run.warmFrom, temperatureC: tenths(15 + 4 * random()) },
    { kind: 'cleared', at: hoursAfter(run.warmUntil, -1), temperatureC: tenths(40 + random()) },
    { kind: 'cooled', at: at(-1), temperatureC },
    { kind: 'seeded', at: at(0.5), temperatureC: tenths(temperatureC - 0.4) },
    { kind: 'potted', at: at(1) },
    { kind: 'shelved', at: at(1.75), note: `Stands at ${placeC} °C.` },
  ];
}

/** Pots of half a kilogram, of some batches smaller ones, too; of most some is put by as seed. The rest stays in the bucket. */
function fillPots(number: number, massG: number, owedG: number, random: RandomSource): Potting {
  const lossG = 10 + Math.round(60 * random());
  const seedShare = number % 8 === 5 ? 0 : 0.09 + 0.1 * random();
  const seedPutByG = Math.round((massG * seedShare) / 10) * 10 + owedG;
  const small = number % 3 === 0 ? 16 : 0;
  const count = Math.floor((massG - lossG - seedPutByG - small * 250) / 500);
  const pots = [{ netMassG: 500, count }];
  return {
    pots: small === 0 ? pots : [...pots, { netMassG: 250, count: small }],
    seedPutByG,
    lossG,
  };
}
