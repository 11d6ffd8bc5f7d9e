import { randomUUID } from 'node:crypto';
import { aLot, aLotBody, countStatements } from '../support/lots';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';
import {
  cylinderLeft,
  cylinderTerms,
  wallLeft,
  wallTerms,
} from '../core/honey/analytic-conduction';

const service = useService();

type Grain = 'fine' | 'medium' | 'coarse';

async function aNamedSource({ clubId }: ClubWorld, name: string, grain: Grain): Promise<string> {
  const data = { clubId, name, grain, sets: true };
  return (await service.prisma.floralSource.create({ data })).id;
}

interface LotWish {
  source: string;
  massKg: number;
  moisturePercent?: number;
  kind?: 'honey' | 'seed';
  grain?: Grain;
}

async function bringIn(actor: Actor, { path }: ClubWorld, wish: LotWish): Promise<string> {
  const { source, kind = 'honey', massKg, moisturePercent = 17.4, grain } = wish;
  const body = { ...aLotBody(source, { kind, massKg }), moisturePercent, ...(grain && { grain }) };
  const answer = await actor.post(`${path}/lots`, body).expect(201);
  return (answer.body as { id: string }).id;
}

/** A batch of Ada's of these lots, whole: its address. */
async function aBatchOf(
  { ada, path }: ClubWorld,
  honey: { lotId: string; massKg: number }[],
): Promise<string> {
  const { body } = await ada.post(`${path}/batches`, { name: 'Spring', honey }).expect(201);
  return `${path}/batches/${body.id as string}`;
}

const step = (actor: Actor, batch: string, kind: string, at: string, more: object = {}) =>
  actor.post(`${batch}/steps`, { kind, at, ...more }).expect(201);

/** Two days at 40 °C: loaded, and cleared as warm. */
async function warmedTwoDays(actor: Actor, batch: string, day: string): Promise<void> {
  const loadedAt = new Date(`${day}T08:00:00Z`);
  await step(actor, batch, 'loaded', loadedAt.toISOString(), { temperatureC: 40 });
  const clearedAt = hoursLater(loadedAt, 48).toISOString();
  await step(actor, batch, 'cleared', clearedAt, { temperatureC: 40 });
}

/** 15 kg of rape honey of 17.0 % and 10 kg of lime honey of 18.5 %, meant for a batch of Ada's. */
async function aWorld() {
  const club = await aClub(service);
  const rape = await aNamedSource(club, 'RAPE', 'fine');
  const lime = await aNamedSource(club, 'Lime', 'medium');
  const first = await bringIn(club.ada, club, { source: rape, massKg: 15, moisturePercent: 17 });
  const second = await bringIn(club.ada, club, { source: lime, massKg: 10, moisturePercent: 18.5 });
  const batch = await aBatchOf(club, [
    { lotId: first, massKg: 15 },
    { lotId: second, massKg: 10 },
  ]);
  const reckoning = async () => (await club.ada.get(`${batch}/reckoning`).expect(200)).body;
  return { ...club, club, rape, first, second, batch, reckoning };
}

/** White, Kushnir & Subers 1964: half of the diastase is left after 31 days at 40 °C. */
const LEFT_AFTER_TWO_DAYS = 2 ** (-2 / 31);
/** White and the Danish adviser: 30 mg/kg of HMF take 20 to 50 days at 40 °C, by geometric mean 31.6. */
const GAIN = { most: (30 * 2) / 20, likely: (30 * 2) / Math.sqrt(20 * 50), least: (30 * 2) / 50 };

test('a batch is reckoned from its own records', async () => {
  const { ada, club, rape, batch, reckoning } = await aWorld();
  const seed = { source: rape, kind: 'seed', massKg: 5, grain: 'coarse' } as const;
  const lotId = await bringIn(ada, club, seed);
  await warmedTwoDays(ada, batch, '2025-05-01');
  await step(ada, batch, 'seeded', '2025-05-04T08:00:00Z', { seed: [{ lotId, massKg: 2.25 }] });

  const body = await reckoning();

  // By mass: (15 · 17.0 + 10 · 18.5) / 25.
  expect(body.honey).toEqual({ massKg: 25, moisturePercent: 17.6, lotsWithoutMoisture: [] });
  // 10 per 100 of honey is 10/110 of the blend; 2.25 kg is 9 per 100, and 2.25/27.25 of the blend.
  expect(body.seed).toEqual({
    usual: { seedMassKg: 2.5, perHundredOfHoney: 10, percentOfBlend: 9.09 },
    used: { seedMassKg: 2.25, perHundredOfHoney: 9, percentOfBlend: 8.26 },
  });
  expect(body.heat.hours).toBe(48);
  expect(body.heat.evenly.diastaseLeftPercent).toBeCloseTo(100 * LEFT_AFTER_TWO_DAYS, 1);
  expect(body.heat.evenly.hmfGain.leastMgPerKg).toBeCloseTo(GAIN.least, 2);
  expect(body.heat.evenly.hmfGain.likelyMgPerKg).toBeCloseTo(GAIN.likely, 2);
  expect(body.heat.evenly.hmfGain.mostMgPerKg).toBeCloseTo(GAIN.most, 2);
  expect(body.heat.atTheWarmer).toEqual(body.heat.evenly);
  // Lochhead 1933: 17.1 to 18.0 % is safe below 1000 yeasts per gram, 19.1 to 20.0 % below 1. Glucose monohydrate holds 18.015 g of water
  // in 198.17 g, so that the liquid beside 15 g of it has (17.6 − 9.0906 · 0.15) / 0.85 = 19.10 % water.
  expect(body.fermentation).toMatchObject({
    class: 'safe-below-count',
    safeBelowYeastPerG: 1000,
    crystalPercent: 15,
    liquidMoisturePercent: 19.1,
    classAfterSetting: 'safe-below-count',
    safeBelowYeastPerGAfterSetting: 1,
    warning: expect.stringContaining('1000 yeasts'),
  });
  // Persano Oddo & Piro 2004 (from memory): rape 40.5 g of glucose and 38.3 of fructose, lime 31.9 and 37.5. Manikis & Thrasyvoulou 2001:
  // glucose over water above 2.1 is fast, and here it is (0.6 · 40.5 + 0.4 · 31.9) / 17.6.
  expect(body.setting).toMatchObject({
    glucosePercent: 37.06,
    fructosePercent: 37.98,
    moisturePercent: 17.6,
    moistureIsOwn: true,
    glucoseToWater: 2.106,
    readiness: 'fast',
    willSet: 'yes',
    sources: [
      { name: 'RAPE', plant: 'rape (Brassica napus)', sharePercent: 60 },
      { name: 'Lime', plant: 'lime (Tilia)', sharePercent: 40, status: 'from memory, medium' },
    ],
  });
  expect(body.grain).toMatchObject({
    seedGrain: 'coarse',
    honeyGrain: 'fine',
    expectedGrain: 'coarse',
    warning: expect.stringContaining('coarse'),
  });
  expect(body.notReckoned).toEqual([]);
  expect(body.stage).toBe('seeded');
  expect(body.creamedLotId).toMatch(/^[0-9a-f-]{36}$/);
});

describe('warming', () => {
  /** Hours by the exact series, for honey whose crystals would take up their heat evenly, or that has none. */
  function hoursBySeries(airC: number, specificHeatJPerKgK: number): number {
    // Helvey 1954, 17 % water at 30 °C, between 0.536 at 21 °C and 0.595 at 71 °C; specific gravity between 1.4171 (18 %) and 1.4237 (17 %).
    const conductivity = 0.545;
    const density = 1.42 * 998;
    const diameterM = Math.cbrt((4 * 25) / (Math.PI * density));
    const radiusM = diameterM / 2;
    const cylinder = cylinderTerms((5 * radiusM) / conductivity, 8);
    const wall = wallTerms((5 * radiusM) / conductivity, 8);
    const diffusivity = conductivity / (density * specificHeatJPerKgK);
    const leftAtClear = (airC - 40) / (airC - 12);
    let [low, high] = [1, 400];
    for (let halving = 0; halving < 50; halving += 1) {
      const hours = (low + high) / 2;
      const fourier = (diffusivity * hours * 3600) / radiusM ** 2;
      const left = cylinderLeft(cylinder, 0, fourier) * wallLeft(wall, 0, fourier);
      if (left > leftAtClear) low = hours;
      else high = hours;
    }
    return low;
  }

  /** As {@link aWorld}, with one lot that fills a pail. */
  async function aPail() {
    const club = await aClub(service);
    const source = await aNamedSource(club, 'Rape', 'fine');
    const lotId = await bringIn(club.ada, club, { source, massKg: 25, moisturePercent: 17.6 });
    const batch = await aBatchOf(club, [{ lotId, massKg: 25 }]);
    const cabinet = await aCabinet(club);
    const batchId = batch.split('/').at(-1);
    const book = async (hours: number, different: object = {}) => {
      const wish = { batchId, endsAt: hoursLater(ahead(3), hours).toISOString(), ...different };
      const { body } = await club.ada
        .post(`${club.path}/bookings`, aWish(cabinet, wish))
        .expect(201);
      return body.id as string;
    };
    const warming = async () => (await club.ada.get(`${batch}/reckoning`).expect(200)).body.warming;
    return { ...club, batch, book, warming };
  }

  test('nothing booked: a 25 kg pail in air of 42 °C is clear in about two days', async () => {
    const { warming } = await aPail();

    const told = await warming();

    expect(told).toMatchObject({
      bookingId: null,
      airC: 42,
      startC: 12,
      pailMassKg: 25,
      pailDiameterM: 0.282,
      fillHeightM: 0.282,
      filmWPerM2K: 5,
      bookedHours: null,
      spareHours: null,
      verdict: 'nothing-booked',
    });
    // Common practice, no source: about 48 h.
    expect(told.hoursUntilClear).toBeGreaterThan(36);
    expect(told.hoursUntilClear).toBeLessThan(60);
    const words = told.assumptions.map(({ text }: { text: string }) => text).join(' ');
    expect(words).toMatch(/No warming is booked.*25 kg.*5 W\/m²·K.*15 g of crystals.*12 °C/);
    expect(told.assumptions.every(({ source }: { source: string }) => source !== '')).toBe(true);
  });

  test('a booking of a day is too short, and the longest one counts', async () => {
    const { book, warming } = await aPail();
    const short = await book(24);

    const told = await warming();

    // Crystals take up heat: later than without any, earlier than if they took up from 12 °C on as much per degree as they do from 25 to 45 °C.
    // Lupano 1997 (range); Venir, Spaziani & Maltini 2010 (108.39 J/g); Helvey 1954 (0.54 cal/g·K).
    const withoutMelting = hoursBySeries(42.5, 2260);
    const meltingAllAlong = hoursBySeries(42.5, 2260 + (0.15 * 108_390) / 20);
    expect(told).toMatchObject({ bookingId: short, airC: 42.5, bookedHours: 24, verdict: 'short' });
    expect(told.hoursUntilClear).toBeGreaterThan(withoutMelting);
    expect(told.hoursUntilClear).toBeLessThan(meltingAllAlong);
    expect(told.spareHours).toBeCloseTo(24 - told.hoursUntilClear, 5);

    const long = await book(96);
    const day = ahead(20);
    const cool = { duty: 'cool', minC: 8, maxC: 18 };
    await book(0, {
      ...cool,
      startsAt: day.toISOString(),
      endsAt: hoursLater(day, 200).toISOString(),
    });
    expect(await warming()).toMatchObject({
      bookingId: long,
      otherBookings: 1,
      bookedHours: 96,
      verdict: 'enough',
    });
  });

  test('air that is no warmer than clear honey never clears it', async () => {
    const { book, warming } = await aPail();
    await book(48, { minC: 30, maxC: 38 });

    expect(await warming()).toMatchObject({
      airC: 34,
      hoursUntilClear: null,
      bookedHours: 48,
      spareHours: null,
      verdict: 'too-cool',
    });
  });

  test('honey that was loaded warm starts warm; a cancelled booking counts for nothing', async () => {
    const { ada, path, batch, book, warming } = await aPail();
    const cold = await warming();
    const booking = await book(24);
    await ada.remove(`${path}/bookings/${booking}`);
    await step(ada, batch, 'loaded', '2025-05-01T08:00:00Z', { temperatureC: 30 });

    const warm = await warming();

    expect(warm).toMatchObject({ bookingId: null, startC: 30 });
    expect(warm.hoursUntilClear).toBeLessThan(cold.hoursUntilClear);
  });

  test('a few grams are reckoned, too', async () => {
    const { ada, club, rape } = await aWorld();
    const lotId = await bringIn(ada, club, { source: rape, massKg: 0.001 });
    const batch = await aBatchOf(club, [{ lotId, massKg: 0.001 }]);

    const { body } = await ada.get(`${batch}/reckoning`).expect(200);

    expect(body.warming).toMatchObject({ pailMassKg: 0.001, verdict: 'nothing-booked' });
    expect(body.warming.hoursUntilClear).toBeLessThan(2);
  });
});

const reasonOf = (
  body: { notReckoned: { part: string; reason: string }[] },
  part: string,
): string => body.notReckoned.find((one) => one.part === part)?.reason ?? '';

test('moisture that no table covers leaves out what needs the table, and says why', async () => {
  const { ada, club, rape } = await aWorld();
  const lotId = await bringIn(ada, club, { source: rape, massKg: 20, moisturePercent: 25 });
  const batch = await aBatchOf(club, [{ lotId, massKg: 20 }]);

  const { body } = await ada.get(`${batch}/reckoning`).expect(200);

  expect(body.honey.moisturePercent).toBe(25);
  expect(body.warming).toBeNull();
  expect(reasonOf(body, 'warming')).toMatch(/15 to 21; got 25/);
  // Lochhead 1933: above 20 % always in danger.
  expect(body.fermentation).toMatchObject({
    class: 'always-in-danger',
    safeBelowYeastPerG: null,
    warning: expect.stringContaining('ferment'),
  });
});

test('honey so moist that no class reaches to its liquid once set is in danger all the same', async () => {
  const { ada, club, rape } = await aWorld();
  const lotId = await bringIn(ada, club, { source: rape, massKg: 20, moisturePercent: 30 });
  const batch = await aBatchOf(club, [{ lotId, massKg: 20 }]);

  const { body } = await ada.get(`${batch}/reckoning`).expect(200);

  // (30 − 9.0906 · 0.15) / 0.85.
  expect(body.fermentation).toMatchObject({
    class: 'always-in-danger',
    liquidMoisturePercent: 33.69,
    classAfterSetting: 'always-in-danger',
  });
});

test('a lot whose moisture nobody knows leaves the moisture open, and names the lot', async () => {
  const { clubId, second, reckoning } = await aWorld();
  const lot = { clubId_id: { clubId, id: second } };
  await service.prisma.lot.update({ where: lot, data: { moistureCentiPercent: null } });

  const body = await reckoning();

  expect(body.honey).toMatchObject({
    massKg: 25,
    moisturePercent: null,
    lotsWithoutMoisture: [{ lotId: second, name: expect.any(String) }],
  });
  expect(body.warming).toBeNull();
  expect(body.fermentation).toBeNull();
  expect(reasonOf(body, 'warming')).toMatch(/moisture/);
  expect(reasonOf(body, 'fermentation')).toMatch(/moisture/);
  // Water of the same published honeys, rape 16.9 and lime 16.9.
  expect(body.setting).toMatchObject({ moistureIsOwn: false, moisturePercent: 16.9 });
});

test('a planned batch without temperatures and seed says what is missing', async () => {
  const { ada, batch, reckoning } = await aWorld();

  const planned = await reckoning();
  await step(ada, batch, 'loaded', '2025-05-01T08:00:00Z', { temperatureC: 12 });
  await step(ada, batch, 'cleared', '2025-05-03T08:00:00Z');
  const half = await reckoning();

  for (const body of [planned, half]) {
    expect(body).toMatchObject({ heat: null, grain: null, seed: { used: null } });
    expect(reasonOf(body, 'heat')).toMatch(/Fewer than two/);
    expect(reasonOf(body, 'grain')).toMatch(/No seed/);
  }
});

test('between two temperatures it was at most as warm as the warmer one', async () => {
  const { ada, batch, reckoning } = await aWorld();
  await step(ada, batch, 'loaded', '2025-05-01T08:00:00Z', { temperatureC: 12 });
  await step(ada, batch, 'cleared', '2025-05-03T08:00:00Z', { temperatureC: 40 });

  const { heat } = await reckoning();

  expect(heat.atTheWarmer.diastaseLeftPercent).toBeCloseTo(100 * LEFT_AFTER_TWO_DAYS, 1);
  expect(heat.atTheWarmer.hmfGain.likelyMgPerKg).toBeCloseTo(GAIN.likely, 2);
  expect(heat.evenly.diastaseLeftPercent).toBeGreaterThan(heat.atTheWarmer.diastaseLeftPercent);
  expect(heat.evenly.diastaseLeftPercent).toBeLessThan(100);
});

describe('a probe in the honey', () => {
  /** Of the steps, 12 °C at loading and at clearing; the probe logged 40 °C at each of these hours. */
  async function logged(hours: number[]) {
    const { ada, path, batch, reckoning } = await aWorld();
    const loadedAt = new Date('2025-05-01T08:00:00Z');
    await step(ada, batch, 'loaded', loadedAt.toISOString(), { temperatureC: 12 });
    await step(ada, batch, 'cleared', hoursLater(loadedAt, 48).toISOString(), { temperatureC: 12 });
    const batchId = batch.split('/').at(-1)!;
    const { body } = await ada
      .post(`${path}/probes`, { name: 'Lance', batchId, placedAt: '2025-04-01T08:00:00Z' })
      .expect(201);
    const readings = hours.map((hour) => ({ at: hoursLater(loadedAt, hour), temperatureC: 40 }));
    await ada.post(`${path}/probes/${String(body.id)}/readings`, { readings }).expect(200);
    return (await reckoning()).heat;
  }
  const hourly = (from: number, until: number) =>
    Array.from({ length: until - from + 1 }, (_, index) => from + index);

  test('tells what warming cost, whatever was written down at the steps', async () => {
    const heat = await logged(hourly(-5, 60));
    expect(heat).toMatchObject({ basis: 'readings', hours: 48 });
    expect(heat.evenly.diastaseLeftPercent).toBeCloseTo(100 * LEFT_AFTER_TWO_DAYS, 1);
    expect(heat.evenly.hmfGain.likelyMgPerKg).toBeCloseTo(GAIN.likely, 2);
  });

  test('is believed when it logged nine tenths of the time, and holds to the ends', async () => {
    const heat = await logged(hourly(2, 46));
    expect(heat).toMatchObject({ basis: 'readings', hours: 48 });
    expect(heat.evenly.diastaseLeftPercent).toBeCloseTo(100 * LEFT_AFTER_TWO_DAYS, 1);
  });

  test.each([
    ['half of the time', hourly(0, 24)],
    ['with nights left out', [0, 8, 16, 24, 32, 40, 48]],
    ['before and after alone', [-3, -2, 49, 50]],
  ])('that logged %s leaves it to the steps', async (_, hours) => {
    const heat = await logged(hours);
    expect(heat.basis).toBe('steps');
    expect(heat.evenly.diastaseLeftPercent).toBeGreaterThan(99);
  });
});

test('temperatures that no source covers leave the heat out', async () => {
  const { ada, batch, reckoning } = await aWorld();
  await step(ada, batch, 'loaded', '2025-05-01T08:00:00Z', { temperatureC: 12 });
  await step(ada, batch, 'cleared', '2025-05-03T08:00:00Z', { temperatureC: 95 });

  const body = await reckoning();

  expect(body.heat).toBeNull();
  expect(reasonOf(body, 'heat')).toMatch(/to 80; got 95/);
});

test('a floral source that no table knows leaves the setting open, and is named', async () => {
  const { ada, club } = await aWorld();
  const source = await aNamedSource(club, 'Phacelia', 'fine');
  const lotId = await bringIn(ada, club, { source, massKg: 20 });
  const batch = await aBatchOf(club, [{ lotId, massKg: 20 }]);

  const { body } = await ada.get(`${batch}/reckoning`).expect(200);

  expect(body.setting).toBeNull();
  expect(reasonOf(body, 'setting')).toContain('“Phacelia”');
});

test.each([
  ['Oilseed rape', 'rape (Brassica napus)'],
  ['brassica napus', 'rape (Brassica napus)'],
  ['Robinia', 'false acacia (Robinia)'],
  ['HONEYDEW', 'honeydew'],
])('%s goes by the published composition of %s', async (name, plant) => {
  const { ada, club } = await aWorld();
  const source = await aNamedSource(club, name, 'fine');
  const lotId = await bringIn(ada, club, { source, massKg: 20 });
  const batch = await aBatchOf(club, [{ lotId, massKg: 20 }]);

  const { body } = await ada.get(`${batch}/reckoning`).expect(200);

  expect(body.setting.sources).toMatchObject([{ name, plant, sharePercent: 100 }]);
});

test('seed of the honey’s own grain gets no warning; seed of unknown grain is not judged', async () => {
  const { ada, club, rape, batch, reckoning } = await aWorld();
  const wish = { source: rape, kind: 'seed', massKg: 5 } as const;
  const fine = await bringIn(ada, club, { ...wish, grain: 'fine' });
  const unknown = await bringIn(ada, club, wish);
  const lotId = await bringIn(ada, club, { source: rape, massKg: 20 });
  const other = await aBatchOf(club, [{ lotId, massKg: 20 }]);
  await step(ada, batch, 'seeded', '2025-05-04T08:00:00Z', { seed: [{ lotId: fine, massKg: 2 }] });
  const seed = [
    { lotId: fine, massKg: 1 },
    { lotId: unknown, massKg: 1 },
  ];
  await step(ada, other, 'seeded', '2025-05-04T08:00:00Z', { seed });

  expect((await reckoning()).grain).toMatchObject({ expectedGrain: 'fine', warning: null });
  const { body } = await ada.get(`${other}/reckoning`).expect(200);
  expect(body.grain).toBeNull();
  expect(reasonOf(body, 'grain')).toMatch(/grain of the seed/);
});

test('cautions are those of what is still to be done', async () => {
  const { ada, club, rape } = await aWorld();
  const lotId = await bringIn(ada, club, { source: rape, massKg: 25 });
  const batch = await aBatchOf(club, [{ lotId, massKg: 25 }]);
  const topics = async () => {
    const { body } = await ada.get(`${batch}/reckoning`).expect(200);
    return body.cautions.map(({ about }: { about: string }) => about);
  };

  const planned = await topics();
  await step(ada, batch, 'abandoned', '2025-05-04T08:00:00Z');

  expect(planned).toEqual([
    'estimates',
    'lifting',
    'burns',
    'mixer',
    'gear',
    'law',
    'bees',
    'infants',
  ]);
  expect(await topics()).toEqual(['estimates', 'bees', 'infants']);
});

describe('what a lot went through', () => {
  /** Honey of 20 kg, warmed for two days or not, and 2 kg of that seed: the batch and what it made. */
  async function creamed(world: Awaited<ReturnType<typeof aWorld>>, seedId: string, day: string) {
    const { ada, club, rape } = world;
    const lotId = await bringIn(ada, club, { source: rape, massKg: 20 });
    const batch = await aBatchOf(club, [{ lotId, massKg: 20 }]);
    if (day !== '') await warmedTwoDays(ada, batch, day);
    const at = day === '' ? '2025-03-01T08:00:00Z' : `${day.slice(0, 8)}20T08:00:00Z`;
    await step(ada, batch, 'seeded', at, { seed: [{ lotId: seedId, massKg: 2 }] });
    const more = { pots: [{ netMassKg: 0.5, count: 10 }], seedPutByKg: 2 };
    await step(ada, batch, 'potted', at, more);
    const { body } = await ada.get(batch).expect(200);
    const { creamed: made, seedPutBy } = body as Record<string, { lotId: string }>;
    return { creamedId: made!.lotId, seedId: seedPutBy!.lotId, batchId: body.id as string };
  }
  const heatOf = async ({ ada, path }: ClubWorld, lotId: string) =>
    (await ada.get(`${path}/lots/${lotId}/heat-history`).expect(200)).body;

  test('the honey of each batch counts by its share, and seed brings along what it went through', async () => {
    const world = await aWorld();
    const bought = await bringIn(world.ada, world.club, {
      source: world.rape,
      kind: 'seed',
      massKg: 2,
    });
    const first = await creamed(world, bought, '2025-04-01');
    const second = await creamed(world, first.seedId, '2025-06-01');

    const one = await heatOf(world.club, first.creamedId);
    const putBy = await heatOf(world.club, first.seedId);
    const two = await heatOf(world.club, second.creamedId);

    const left = LEFT_AFTER_TWO_DAYS;
    const leftInFirst = (20 * left + 2) / 22;
    const leftInSecond = (20 * left + 2 * leftInFirst) / 22;
    expect(one.ownBatch.evenly.diastaseLeftPercent).toBeCloseTo(100 * left, 1);
    expect(one.line.meanDiastaseLeftPercent).toBeCloseTo(100 * leftInFirst, 1);
    expect(one.line.worstDiastaseLeftPercent).toBe(one.ownBatch.evenly.diastaseLeftPercent);
    expect(one.line.meanHmfGain.likelyMgPerKg).toBeCloseTo((20 / 22) * GAIN.likely, 2);
    expect(putBy).toEqual({ ...one, lotId: first.seedId, kind: 'seed' });
    expect(two.line.meanDiastaseLeftPercent).toBeCloseTo(100 * leftInSecond, 1);
    const gainInSecond = (20 * GAIN.likely + (2 * 20 * GAIN.likely) / 22) / 22;
    expect(two.line.meanHmfGain.likelyMgPerKg).toBeCloseTo(gainInSecond, 2);
    expect(two).toMatchObject({
      kind: 'creamed',
      batchId: second.batchId,
      line: { batchesCounted: 2, batchesNotKnown: 0, notKnownPercent: 0 },
      notReckoned: [],
    });
  });

  test('a batch without temperatures counts as no loss, and its share is told', async () => {
    const world = await aWorld();
    const bought = await bringIn(world.ada, world.club, {
      source: world.rape,
      kind: 'seed',
      massKg: 2,
    });
    const first = await creamed(world, bought, '');
    const second = await creamed(world, first.seedId, '2025-06-01');

    const one = await heatOf(world.club, first.creamedId);
    const two = await heatOf(world.club, second.creamedId);

    expect(one.ownBatch).toBeNull();
    expect(reasonOf(one, 'ownBatch')).toMatch(/Fewer than two/);
    // 20 of 22 kg; then 2 of 22 kg of that.
    expect(one.line).toMatchObject({
      meanDiastaseLeftPercent: 100,
      batchesCounted: 0,
      batchesNotKnown: 1,
      notKnownPercent: 90.91,
    });
    expect(two.line).toMatchObject({
      batchesCounted: 1,
      batchesNotKnown: 1,
      notKnownPercent: 8.26,
    });
  });

  test('a lot as it was brought in went through no batch', async () => {
    const { club, first } = await aWorld();

    const told = await heatOf(club, first.toUpperCase());

    expect(told).toMatchObject({ lotId: first, batchId: null, ownBatch: null, line: null });
    expect(reasonOf(told, 'ownBatch')).toMatch(/No batch/);
    expect(reasonOf(told, 'line')).toMatch(/No batch/);
  });
});

test('each answer takes one statement, and one to know the caller; it stays the same', async () => {
  const { ada, ben, path, batch, first } = await aWorld();
  for (const address of [`${batch}/reckoning`, `${path}/lots/${first}/heat-history`]) {
    const { body, headers } = await ada.get(address).expect(200);

    expect(await countStatements(() => ada.get(address).expect(200))).toBe(2);
    expect((await ben.get(address).expect(200)).body).toEqual(body);
    await ada.get(address).set('If-None-Match', String(headers['etag'])).expect(304);
  }
});

test('of another club’s batch and lot nobody learns more than of none', async () => {
  const { batch, first } = await aWorld();
  const { ada, path, clubId } = await aClub(service);
  const lotOfOwn = await aLot(
    ada,
    { path },
    await aNamedSource({ clubId } as ClubWorld, 'x', 'fine'),
  );
  await ada.get(`${path}/lots/${lotOfOwn}/heat-history`).expect(200);

  const others = [
    [`${path}/batches/`, batch.split('/').at(-1)!, '/reckoning'],
    [`${path}/lots/`, first, '/heat-history'],
  ] as const;
  for (const [before, id, after] of others) {
    const theirs = await ada.get(`${before}${id}${after}`).expect(404);
    const none = await ada.get(`${before}${randomUUID()}${after}`).expect(404);
    await ada.get(`${before}no-id${after}`).expect(404);

    const withoutIds = ({ body }: { body: Record<string, unknown> }) => ({
      ...body,
      instance: null,
    });
    expect(withoutIds(theirs)).toEqual(withoutIds(none));
  }
  await ada.get(`${batch}/reckoning`).expect(404);
});
