import type { Response } from 'supertest';
import { aSource } from '../support/lots';
import { seededBatches, type BatchWishes } from '../support/seeded-batches';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';
import { referenceCases, tolerance } from '../core/setting/reference-cases';
import type { ReferenceCase, Result } from '../references/survival/types';

const service = useService();

async function aWorld(): Promise<ClubWorld & { times: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId, 'Rape');
  return { ...club, times: `${club.path}/setting-times`, sourceId };
}

function resultOf<Kind extends Result['kind']>(
  reference: ReferenceCase,
  kind: Kind,
  label: string,
) {
  const found = reference.results.find((one) => one.kind === kind && one.label === label);
  if (found === undefined) throw new Error(`no ${label}`);
  return found as Extract<Result, { kind: Kind }>;
}

interface ToldGroup {
  name: string;
  timesAsFast: number | null;
  inWords: string;
  curve: object[];
  medianDays: number;
  pooled: { batchCount: number; inWords: string; lowerDays: number; medianDays: number };
}

interface Term {
  covariate: string;
  level: string | null;
  reference: string | null;
  coefficient: number;
  standardError: number;
}

// Source of every expected number: test/references/survival/sim-1-weibull-200.json, R 4.2.2 with survival 3.5-3 (survreg), at the tolerances
// stated there: 200 simulated batches with their floral source, temperature, seed in percent of the blend, and moisture.
describe('simulated batches, filed as lots, bookings and looks', () => {
  const reference = referenceCases.find(({ id }) => id === 'sim-1-weibull-200')!;
  const { lower, upper } = reference.data.columns;
  const source = reference.data.columns['source'] as string[];
  const numbers = (name: string) => reference.data.columns[name] as number[];
  const [temperature, seedPct, moisture] = ['temperature', 'seedPct', 'moisture'].map(numbers);
  const sources = [...new Set(source)].sort();
  let world: Awaited<ReturnType<typeof aWorld>>;
  let body: Response['body'];

  beforeAll(async () => {
    world = await aWorld();
    const { clubId, ada } = world;
    const ids = new Map<string, string>();
    for (const name of sources) ids.set(name, await aSource(service, clubId, name));
    const batches = source.map((name, row) => ({
      lower: lower[row]!,
      upper: upper[row] ?? null,
      sourceId: ids.get(name)!,
      seedMassG: Math.round(seedPct![row]! * 1000),
      honeyMassG: 100_000 - Math.round(seedPct![row]! * 1000),
      moistureCentiPercent: Math.round(moisture![row]! * 100),
      coolRoomDeciC: Math.round(temperature![row]! * 10),
    }));
    await seededBatches(
      service,
      {
        clubId,
        memberId: ada.memberId,
        sourceId: world.sourceId,
        from: new Date('2024-01-01T09:00:00Z'),
      },
      batches,
    );
    const asked = await ada
      .get(`${world.times}?by=floralSource&adjust=temperature,seedFraction,moisture`)
      .expect(200);
    body = asked.body;
  });

  const label = 'all batches, source + covariates, weibull';
  const aft = resultOf(reference, 'aft', label);
  const { parameterNames, coefficients, stdErr, logScale, logLik } = aft.expected;
  const published = (name: string) => {
    const index = parameterNames.indexOf(name);
    return { coefficient: coefficients[index] ?? 0, standardError: stdErr[index]! };
  };

  test('the distribution with the smallest AIC is the published one, with its likelihood and scale', () => {
    const { adjusted } = body;
    const compared = adjusted.distributionsCompared as { distribution: string; aic: number }[];
    expect(compared.map(({ distribution }) => distribution).sort()).toEqual([
      'loglogistic',
      'lognormal',
      'weibull',
    ]);
    for (const { distribution, aic } of compared) {
      const own = resultOf(reference, 'aft', `all batches, source + covariates, ${distribution}`);
      expect(Math.abs(aic - own.expected.aic)).toBeLessThan(1e-5);
    }
    expect(adjusted.distribution).toBe('weibull');
    expect(adjusted).toMatchObject({ batchCount: 200, leftOutCount: 0, leftOut: [], setAside: [] });
    expect(Math.abs(adjusted.logLik - logLik)).toBeLessThan(tolerance(aft, 'logLikAbs'));
    expect(Math.log(adjusted.scale)).toBeCloseTo(logScale, 5);
    expect(adjusted.logScaleStandardError).toBeCloseTo(stdErr.at(-1)!, 4);
  });

  test.each([
    ['temperature', 'temperature'],
    ['share of seed', 'seedPct'],
    ['moisture', 'moisture'],
  ])('the coefficient of %s and its standard error are the published ones', (covariate, name) => {
    const term = (body.adjusted.terms as Term[]).find((one) => one.covariate === covariate)!;
    const { coefficient, standardError } = published(name);
    expect(Math.abs(term.coefficient - coefficient)).toBeLessThan(
      tolerance(aft, 'coefAbsInStdErrs') * standardError,
    );
    expect(Math.abs(term.standardError / standardError - 1)).toBeLessThan(1e-4);
  });

  test('sources differ from each other by as much as published', () => {
    const terms = (body.adjusted.terms as Term[]).filter(
      (one) => one.covariate === 'floral source',
    );
    const effect = (name: string) =>
      name === 'acacia' ? 0 : published(`source${name}`).coefficient;
    expect(terms.map(({ level }) => level).sort()).toEqual(
      sources.filter((name) => name !== terms[0]!.reference),
    );
    for (const { level, reference: other, coefficient } of terms) {
      expect(coefficient).toBeCloseTo(effect(level!) - effect(other!), 5);
    }
    const acacia = terms.find(({ level }) => level === 'acacia');
    if (acacia !== undefined) {
      expect(acacia.standardError).toBeCloseTo(
        published(`source${acacia.reference!}`).standardError,
        5,
      );
    }
  });

  test('the test of the source is the published likelihood-ratio test', () => {
    const own = (
      body.adjusted.tests as {
        covariate: string;
        chiSquare: number;
        degreesOfFreedom: number;
        p: number;
      }[]
    )[0]!;
    const expected = resultOf(
      reference,
      'likelihood-ratio',
      'floral source, given covariates, weibull',
    );
    expect(own).toMatchObject({
      covariate: 'floral source',
      degreesOfFreedom: expected.expected.df,
      inWords: expect.stringContaining('p below 0.001'),
    });
    expect(own.chiSquare).toBeCloseTo(expected.expected.chiSquare, 4);
  });

  test('speeds are told in words with their limits, and follow from the coefficients', () => {
    const rape = (body.adjusted.groups as ToldGroup[]).find(({ name }) => name === 'oilseed-rape')!;
    const acacia = (body.adjusted.groups as ToldGroup[]).find(({ name }) => name === 'acacia')!;
    // R: acacia takes exp(2.026) = 7.6 times as long as oilseed rape at the same temperature, seed and moisture.
    const [slow, fast] = [acacia.timesAsFast ?? 1, rape.timesAsFast ?? 1] as [number, number];
    expect(fast / slow).toBeCloseTo(Math.exp(-published('sourceoilseed-rape').coefficient), 3);
    expect(acacia.inWords).toMatch(/^acacia .*95 % .* to .*\.$|compared with/);
  });

  test('curves fall, with limits on both sides, and half has set at the median', () => {
    for (const { curve, medianDays } of body.adjusted.groups as ToldGroup[]) {
      const points = curve as {
        stillSetting: number;
        days: number;
        lowerDays: number;
        upperDays: number;
      }[];
      expect(points.length).toBeGreaterThan(10);
      points.forEach((point, index) => {
        expect(point.lowerDays).toBeLessThan(point.days);
        expect(point.upperDays).toBeGreaterThan(point.days);
        expect(point.days).toBeGreaterThan(points[index - 1]?.days ?? 0);
      });
      expect(points.find(({ stillSetting }) => stillSetting === 0.5)?.days).toBe(medianDays);
    }
  });

  test('groups are compared, drawn together and ranked only where they can be told apart', () => {
    expect(body.comparison).toMatchObject({
      batchCount: 200,
      inWords: expect.stringContaining('differ by more'),
    });
    expect(body.comparison.p).toBeLessThan(0.001);
    expect(body.ranking.toldApart.join(' ')).toMatch(
      /oilseed-rape sets .* times as fast as acacia/,
    );
    for (const { pooled, name } of body.groups as ToldGroup[]) {
      expect(pooled.batchCount).toBe(source.filter((one) => one === name).length);
      expect(pooled.inWords).toContain(`rests on ${pooled.batchCount} batches`);
      expect(pooled.lowerDays).toBeLessThan(pooled.medianDays);
    }
  });

  test('by temperature bands of two degrees, in order, each batch counts once', async () => {
    const { body: told } = await world.ada.get(`${world.times}?by=temperatureBand`).expect(200);
    const bands = told.groups as { name: string; batchCount: number }[];
    const expected = new Map<number, number>();
    for (const value of temperature!) {
      const from = 2 * Math.floor(value / 2);
      expected.set(from, (expected.get(from) ?? 0) + 1);
    }
    expect(bands.map(({ name, batchCount }) => [name, batchCount])).toEqual(
      [...expected]
        .sort(([a], [b]) => a - b)
        .map(([from, count]) => [`${from} to ${from + 2} °C`, count]),
    );
  });
});

async function fileBatches(
  { clubId, ada, sourceId }: Awaited<ReturnType<typeof aWorld>>,
  batches: (BatchWishes & { lower: number; upper: number | null })[],
  from = '2024-01-01T09:00:00Z',
): Promise<void> {
  const club = { clubId, memberId: ada.memberId, sourceId, from: new Date(from) };
  await seededBatches(service, club, batches);
}

const seenSet = [7, 9, 10, 12, 15, 20].map((upper) => ({ lower: upper - 3, upper }));

test('batches of which something is not known are left out, counted, and what they lack is named', async () => {
  const world = await aWorld();
  await fileBatches(world, [
    ...seenSet.map((batch, index) => ({
      ...batch,
      moistureCentiPercent: 1700 + 30 * (index % 4),
      coolRoomDeciC: 130,
    })),
    { lower: 4, upper: 6, moistureCentiPercent: 1750 },
    { lower: 4, upper: 6 },
  ]);

  const { body } = await world.ada
    .get(`${world.times}?by=season&adjust=moisture&adjust=seedGrain`)
    .expect(200);

  expect(body.adjusted).toMatchObject({
    batchCount: 0,
    leftOutCount: 8,
    leftOut: expect.arrayContaining([
      { lacking: 'moisture', batchCount: 1 },
      { lacking: 'grain of seed', batchCount: 8 },
    ]),
    inWords: expect.stringContaining('Nothing can be adjusted.'),
  });
  const { body: one } = await world.ada.get(`${world.times}?by=season&adjust=moisture`).expect(200);
  expect(one.adjusted).toMatchObject({
    batchCount: 7,
    leftOutCount: 1,
    leftOut: [{ lacking: 'moisture', batchCount: 1 }],
    inWords: expect.stringMatching(
      /^Adjusted for moisture, on 7 batches, 7 of them seen set.*Left out: 1 batch/,
    ),
  });
});

test('what always goes together cannot be told apart, and it is said so', async () => {
  const world = await aWorld();
  await fileBatches(
    world,
    seenSet.map((batch) => ({ ...batch, moistureCentiPercent: 1700, coolRoomDeciC: 130 })),
  );

  const { body } = await world.ada.get(`${world.times}?adjust=moisture`).expect(200);

  expect(body.adjusted).toMatchObject({ distribution: null, groups: [], terms: [] });
  expect(body.adjusted.inWords).toMatch(/does not tell these apart: .*moisture/);
});

test('a source of which none has been seen set has no figure, but a bound', async () => {
  const world = await aWorld();
  const ivy = await aSource(service, world.clubId, 'Ivy');
  await fileBatches(world, [
    ...[...seenSet, ...seenSet].map((batch, index) => ({
      ...batch,
      coolRoomDeciC: 120 + (index % 5) * 5,
    })),
    ...[30, 40, 50].map((lower) => ({ lower, upper: null, sourceId: ivy, coolRoomDeciC: 130 })),
  ]);

  const { body } = await world.ada.get(`${world.times}?adjust=temperature`).expect(200);

  const own = (body.adjusted.groups as { name: string }[]).find(({ name }) => name === 'Ivy')!;
  expect(own).toMatchObject({
    medianDays: null,
    timesAsFast: null,
    curve: [],
    batchCount: 3,
    setCount: 0,
  });
  expect(own).toMatchObject({
    inWords: expect.stringMatching(
      /none of the 3 batches has been seen set.*at most 0\.\d+ times as fast as Rape/,
    ),
  });
  expect(body.adjusted.setAside).toHaveLength(1);
});

test('what the groups go by already cannot be adjusted for, and unknown words are refused', async () => {
  const { ada, times } = await aWorld();
  for (const query of [
    'by=season&adjust=season',
    'adjust=temperature,floralSource',
    'by=temperatureBand&adjust=temperature',
    'adjust=hope',
    'adjust=',
  ]) {
    const { body } = await ada.get(`${times}?${query}`).expect(422);
    expect(body.errors[0].parameter).toBe('adjust');
  }
  const { body } = await ada.get(`${times}?by=moon`).expect(422);
  expect(body.errors[0].parameter).toBe('by');
});

test('seasons are those of the club’s calendar, in their order', async () => {
  const world = await aWorld();
  await fileBatches(world, seenSet, '2024-05-30T09:00:00Z');
  await fileBatches(world, seenSet, '2024-01-05T09:00:00Z');

  const { body } = await world.ada.get(`${world.times}?by=season`).expect(200);

  expect(body.groups).toMatchObject([
    { name: 'December to February', batchCount: 6, id: null, floralSourceId: null },
    { name: 'March to May', batchCount: 2 },
    { name: 'June to August', batchCount: 4 },
  ]);
  expect(body.inWords).toMatch(
    /^12 of 12 batches have been seen set\. Half of them had set within about/,
  );
});
