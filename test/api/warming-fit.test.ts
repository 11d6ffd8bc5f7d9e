import { randomUUID } from 'node:crypto';
import { MELTING_ENTHALPY_J_PER_KG } from '../../src/core/honey/crystals';
import type { AirPlan, TemperatureAt } from '../../src/core/honey/air-plan';
import { warmPails } from '../../src/core/honey/warm-pails';
import { fitInWords } from '../../src/reckonings/warming-fit-words';
import { usualPail } from '../../src/reckonings/usual-pail';
import { aLot, aSource, countStatements } from '../support/lots';
import { normalDeviates } from '../support/normal-deviates';
import { aCabinet, bookWarming, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, nobody } from '../support/world';

const service = useService();

const loadedAt = new Date('2026-03-02T08:00:00.000Z');
const at = (hours: number) => hoursLater(loadedAt, hours).toISOString();

const warmingHours = 40;
const held: AirPlan = { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: 45 }] };
/** The heater takes three hours, and does not reach its set point. */
const slowAir: TemperatureAt[] = [
  { atHours: 0, temperatureC: 18 },
  { atHours: 3, temperatureC: 43.5 },
  { atHours: 60, temperatureC: 44 },
];
const truth = { film: 7.5, crystalPercent: 9, startC: 12 };

/** A batch of 25 kg for which 40 hours at 45 °C are booked. */
async function aBatch({ booked = true }: { booked?: boolean } = {}) {
  const club = await aClub(service);
  const { ada, path } = club;
  const lotId = await aLot(ada, club, await aSource(service, club.clubId));
  const { body } = await ada
    .post(`${path}/batches`, { name: 'Lime', honey: [{ lotId, massKg: 25 }] })
    .expect(201);
  const batchId = String(body.id);
  const address = `${path}/batches/${batchId}/warming-fit`;
  const stationId = await aCabinet(club);
  if (booked) {
    await bookWarming(club, {
      stationId,
      memberId: ada.memberId,
      batchId,
      startsAt: at(0),
      endsAt: at(48),
    });
  }
  const step = (kind: string, hours: number, more: object = {}) =>
    ada.post(`${path}/batches/${batchId}/steps`, { kind, at: at(hours), ...more }).expect(201);
  const warm = async () => {
    await step('loaded', 0, { temperatureC: truth.startC });
    await step('cleared', warmingHours);
  };
  const told = async () => (await ada.get(address).expect(200)).body;
  return { ...club, club, batchId, stationId, address, step, warm, told };
}

type World = Awaited<ReturnType<typeof aBatch>>;

async function logs({ ada, path }: World, spot: object, readings: TemperatureAt[]): Promise<void> {
  const { body } = await ada
    .post(`${path}/probes`, {
      name: `Probe ${randomUUID().slice(0, 8)}`,
      placedAt: at(-1),
      ...spot,
    })
    .expect(201);
  await ada
    .post(`${path}/probes/${String(body.id)}/readings`, {
      readings: readings.map(({ atHours, temperatureC }) => ({
        at: at(atHours),
        temperatureC: Number(temperatureC.toFixed(1)),
      })),
    })
    .expect(200);
}

/** A pail of the batch with that film and those crystals, on the fine grid. */
function pailOf({ film, crystalPercent }: { film: number; crystalPercent: number }) {
  const { shape, honey, startC } = usualPail(25, 17.4, truth.startC);
  return {
    count: 1,
    shape,
    startC,
    honey: { ...honey, meltingHeatJPerKg: (crystalPercent / 100) * MELTING_ENTHALPY_J_PER_KG },
    films: { sideWPerM2K: film, topWPerM2K: film, bottomWPerM2K: film },
  };
}

/** What a probe in its core logs every ten minutes, with an error of 0.4 °C. */
function coreLog(pail: ReturnType<typeof pailOf>, air: AirPlan, seed: number): TemperatureAt[] {
  const deviate = normalDeviates(seed);
  const { groups } = warmPails({
    pails: [pail],
    air,
    untilHours: warmingHours,
    sampleEveryHours: 1 / 6,
  });
  return groups[0]!.samples.map(({ atHours, coreC }) => ({
    atHours,
    temperatureC: coreC + 0.4 * deviate(),
  }));
}

function clearHours(pail: ReturnType<typeof pailOf>, air: AirPlan): number {
  return warmPails({ pails: [pail], air, untilHours: 100, clearC: 40, stopWhenClear: true })
    .groups[0]!.clearAtHours!;
}

interface Interval {
  value: number;
  lower: number;
  upper: number;
}

function expectWithin(truly: number, { lower, upper }: Interval): void {
  expect(lower).toBeLessThanOrEqual(truly);
  expect(upper).toBeGreaterThanOrEqual(truly);
}

test('film, crystals and the hours of the next warming are found where a known pail was logged', async () => {
  const world = await aBatch();
  await world.warm();
  const pail = pailOf(truth);
  const log = coreLog(pail, held, 11);
  await logs(world, { batchId: world.batchId }, log);

  const { fit, why, inWords, assumptions, cautions, method } = await world.told();

  expect(why).toBeNull();
  expectWithin(truth.film, fit.filmWPerM2K);
  expectWithin(truth.crystalPercent, fit.crystalPercent);
  expectWithin(truth.startC, fit.startC);
  expect(fit.filmWPerM2K.upper - fit.filmWPerM2K.lower).toBeLessThan(2);
  expect(fit.filmWPerM2K.usual).toBe(5);
  expect(fit.crystalPercent.usual).toBe(15);
  expect(fit.scatterC).toBeGreaterThan(0.2);
  expect(fit.closeness).toBe('close');
  const truly = clearHours(pail, held);
  expect(Math.abs(fit.nextHours.value - truly)).toBeLessThan(0.03 * truly);
  expect(fit.nextHours.upper - fit.nextHours.lower).toBeLessThan(0.1 * truly);
  const usual = clearHours(pailOf({ film: 5, crystalPercent: 15 }), held);
  expect(Math.abs(fit.reckonedHours - usual)).toBeLessThan(0.01 * usual);
  expect(fit.loggedHours).toBeGreaterThan(truly - 3);
  expect(fit.loggedHours).toBeLessThan(truly + 1);
  expect(fit).toMatchObject({
    verdict: 'faster',
    readings: log.length,
    fromAt: at(0),
    untilAt: at(warmingHours),
    air: { basis: 'set-point', meanC: 45, setC: 45 },
    clearC: 40,
    nextStartC: truth.startC,
  });
  expect(inWords).toBe(
    `It warmed about two fifths faster than reckoned: the next time the same pail takes about ${Math.round(truly)} hours until it is clear instead of ${Math.round(usual)}.`,
  );
  // What the air was nobody logged: that is said where it matters.
  expect(assumptions.map(({ text }: { text: string }) => text).join(' ')).toMatch(
    /No probe logged the air .* 45 °C from loading on/,
  );
  expect(cautions).toMatchObject([{ about: 'estimates' }]);
  expect(method).toContain('Least squares');
});

test('what it was reckoned with is what the reckoning of the batch takes', async () => {
  const world = await aBatch();
  await world.warm();
  await logs(world, { batchId: world.batchId }, coreLog(pailOf(truth), held, 5));

  const { fit } = await world.told();

  const { body } = await world.ada
    .get(`${world.path}/batches/${world.batchId}/reckoning`)
    .expect(200);
  expect(fit.reckonedHours).toBeCloseTo(body.warming.hoursUntilClear, 1);
});

test('where the air was logged, it is that air and no slow pail that took its time', async () => {
  const world = await aBatch();
  await world.warm();
  const air: AirPlan = { kind: 'logged', readings: slowAir };
  await logs(world, { batchId: world.batchId }, coreLog(pailOf(truth), air, 23));
  const everyQuarter = Array.from({ length: warmingHours * 4 + 1 }, (_, index) => index / 4);
  await logs(
    world,
    { stationId: world.stationId },
    everyQuarter.map((atHours) => ({
      atHours,
      temperatureC: atHours < 3 ? 18 + 8.5 * atHours : 43.5 + (atHours - 3) / 114,
    })),
  );

  const { fit, assumptions } = await world.told();

  expectWithin(truth.film, fit.filmWPerM2K);
  expectWithin(truth.crystalPercent, fit.crystalPercent);
  expect(fit.air).toMatchObject({ basis: 'logged', setC: 45 });
  expect(fit.air.meanC).toBeGreaterThan(42);
  expect(fit.air.meanC).toBeLessThan(43.5);
  const truly = clearHours(pailOf(truth), air);
  expect(Math.abs(fit.nextHours.value - truly)).toBeLessThan(0.03 * truly);
  expect(assumptions[0].text).toMatch(/as a probe in the station logged it/);
});

test('a pail that takes longer, and one that is as reckoned, are told as such', async () => {
  const [slow, usual] = await Promise.all(
    [
      { film: 4, crystalPercent: 15 },
      { film: 5, crystalPercent: 15 },
    ].map(async (pail, seed) => {
      const world = await aBatch();
      await world.warm();
      await logs(world, { batchId: world.batchId }, coreLog(pailOf(pail), held, seed + 1));
      return world.told();
    }),
  );

  expect(slow.fit.verdict).toBe('slower');
  expect(slow.inWords).toMatch(/^It took about .* longer than reckoned/);
  expect(usual.fit.verdict).toBe('as-reckoned');
  expect(usual.inWords).toMatch(/^It warmed about as fast as reckoned/);
});

test('a fit that ends at the most crystals there can be is told to be taken with care', async () => {
  const world = await aBatch();
  await world.warm();
  // As of a pail of a much larger size: slower than 25 kg with any film can be.
  const late = coreLog(pailOf({ film: 5, crystalPercent: 25 }), held, 8).map(
    ({ atHours, temperatureC }) => ({
      atHours,
      temperatureC: atHours < 20 ? temperatureC : temperatureC - (atHours - 20) / 3,
    }),
  );
  await logs(world, { batchId: world.batchId }, late);

  const { fit, assumptions } = await world.told();

  expect(fit.crystalPercent).toMatchObject({ value: 25, upper: 25 });
  expect(assumptions.at(-1).text).toContain('ended at the most that is reckoned with');
});

test('a curve that fits its log badly is told as rough', async () => {
  const world = await aBatch();
  await world.warm();
  const deviate = normalDeviates(31);
  const unsure = coreLog(pailOf(truth), held, 31).map(({ atHours, temperatureC }) => ({
    atHours,
    temperatureC: temperatureC + 2 * deviate(),
  }));
  await logs(world, { batchId: world.batchId }, unsure);

  const { fit, inWords } = await world.told();

  expect(fit.closeness).toBe('rough');
  expect(inWords).toMatch(/faster than reckoned: .* Only roughly:/);
});

test('a minute’s log of two days is gathered, and that is said', async () => {
  const world = await aBatch();
  await world.warm();
  const log = coreLog(pailOf(truth), held, 3).flatMap((reading) =>
    Array.from({ length: 5 }, (_, minute) => ({
      ...reading,
      atHours: reading.atHours + minute / 60,
    })),
  );
  const within = log.filter(({ atHours }) => atHours <= warmingHours);
  await logs(world, { batchId: world.batchId }, within);

  const { fit, assumptions } = await world.told();

  expect(fit.readings).toBe(within.length);
  expect(fit.points).toBeLessThanOrEqual(241);
  expect(assumptions.map(({ text }: { text: string }) => text).join(' ')).toContain(
    `The ${fit.readings} readings were gathered into ${fit.points} means`,
  );
});

describe('nothing is fitted, and it is said why,', () => {
  const nothing = async (world: World, why: RegExp) => {
    const told = await world.told();
    expect(told).toMatchObject({ batchId: world.batchId, fit: null });
    expect(told.why).toMatch(why);
    expect(told.inWords).toContain(told.why);
    expect(told.cautions).toHaveLength(1);
  };

  test('before it is loaded, and until it is out', async () => {
    const world = await aBatch();
    await nothing(world, /loaded is not on record/);

    await world.step('loaded', 0);
    await nothing(world, /still being warmed/);
  });

  test('where no warming was booked', async () => {
    const world = await aBatch({ booked: false });
    await world.warm();
    await logs(world, { batchId: world.batchId }, coreLog(pailOf(truth), held, 1));
    await nothing(world, /No warming was booked/);
  });

  test('without a probe in the honey, or with one that came later', async () => {
    const world = await aBatch();
    await world.warm();
    await nothing(world, /No probe in its honey/);

    await logs(world, { batchId: world.batchId }, [{ atHours: 41, temperatureC: 42 }]);
    await logs(world, { stationId: world.stationId }, [{ atHours: 1, temperatureC: 42 }]);
    await nothing(world, /No probe in its honey/);
  });

  test('with eleven readings', async () => {
    const world = await aBatch();
    await world.warm();
    const hourly = Array.from({ length: 11 }, (_, index) => ({
      atHours: 3 * index,
      temperatureC: 12 + 2 * index,
    }));
    await logs(world, { batchId: world.batchId }, hourly);
    await nothing(world, /At least 12 moments .* logged 11/);
  });

  test('where the honey never got warm', async () => {
    const world = await aBatch();
    await world.warm();
    const deviate = normalDeviates(4);
    const cold = Array.from({ length: 12 }, (_, index) => ({
      atHours: index / 4,
      temperatureC: 12 + 0.3 * deviate(),
    }));
    await logs(world, { batchId: world.batchId }, cold);
    await nothing(world, /does not tell apart/);
  });

  test('where the probe was pulled out midway', async () => {
    const world = await aBatch();
    await world.warm();
    const pulledOut = coreLog(pailOf(truth), held, 6).map(({ atHours, temperatureC }) => ({
      atHours,
      temperatureC: atHours < 20 ? temperatureC : 19,
    }));
    await logs(world, { batchId: world.batchId }, pulledOut);
    await nothing(world, /the probe was moved/);
  });

  test('where the log is of no pail that rests and warms', async () => {
    const world = await aBatch();
    await world.warm();
    const deviate = normalDeviates(9);
    const broken = coreLog(pailOf(truth), held, 6).map(({ atHours, temperatureC }) => ({
      atHours,
      temperatureC: temperatureC + 5 * deviate(),
    }));
    await logs(world, { batchId: world.batchId }, broken);
    await nothing(world, /does not look like a resting pail/);
  });

  test('where a temperature is outside what can be reckoned with', async () => {
    const world = await aBatch();
    await world.warm();
    await logs(world, { batchId: world.batchId }, [
      { atHours: 0, temperatureC: 140 },
      ...coreLog(pailOf(truth), held, 1).slice(6),
    ]);
    await nothing(world, /Outside what the sources cover/);
  });
});

describe('the sentence', () => {
  const around = (value: number) => ({ value, lower: value - 0.5, upper: value + 0.5 });

  test.each([
    ['about a quarter faster than reckoned: the next time', 24, around(19)],
    ['about a tenth faster than reckoned', 24, around(22)],
    ['about 1.5 times as fast as reckoned', 24, around(16)],
    ['about a third longer than reckoned', 24, around(32)],
    ['about 2.0 times as long as reckoned', 24, around(48)],
    ['about as fast as reckoned: the next time', 24, around(24.9)],
    ['about as fast as reckoned', 24, { value: 19, lower: 13, upper: 25 }],
    ['takes about 6.4 hours until it is clear instead of 8.2', 8.2, around(6.42)],
    ['would not have been clear within 10 days; by what was logged', undefined, around(200)],
    ['It took much longer than reckoned', 24, undefined],
    ['Neither by the usual values nor by what was logged', undefined, undefined],
    ['clear when it was put in', 0, { value: 0, lower: 0, upper: 0 }],
  ])('%s', (words, reckonedHours, nextHours) => {
    expect(fitInWords({ reckonedHours, nextHours })).toContain(words);
  });
});

test('it asks for three statements at most, and stays the same', async () => {
  const world = await aBatch();
  await world.warm();
  await logs(world, { batchId: world.batchId }, coreLog(pailOf(truth), held, 2));
  const { body, headers } = await world.ada.get(world.address).expect(200);

  const count = await countStatements(() => world.ada.get(world.address).expect(200));

  expect(count).toBe(3);
  expect((await world.ben.get(world.address).expect(200)).body).toEqual(body);
  await world.ada.get(world.address).set('If-None-Match', String(headers['etag'])).expect(304);
});

test('of a club that one is not in there is no batch', async () => {
  const { address } = await aBatch();
  const { ada } = await aClub(service);

  await ada.get(address).expect(404);
  await nobody(service).get(address).expect(401);
});
