import { useService } from '../support/service';
import { nobody } from '../support/world';

const service = useService();

async function ask(calculator: string, body: object) {
  const answer = await nobody(service).post(`/calculations/${calculator}`, body);
  expect([answer.status, answer.body.errors]).toEqual([200, undefined]);
  return answer.body;
}

async function refusal(calculator: string, body: object): Promise<[string, string]> {
  const { status, body: problem } = await nobody(service).post(`/calculations/${calculator}`, body);
  expect([status, problem.type]).toEqual([422, '/problems/invalid']);
  return [problem.errors[0].pointer, problem.errors[0].detail];
}

describe('seeding', () => {
  // Mass balance: ten per cent means 2.5 kg to 25 kg of honey, or 2.778 kg so that it is a tenth of the blend.
  test('ten per cent is told in both ways of speaking', async () => {
    const answer = await ask('seeding', { honeyKg: 25, percent: 10, convention: 'perHoney' });
    expect(answer.masses).toEqual(answer.ifPerHoney);
    expect(answer.ifPerHoney).toMatchObject({ honeyKg: 25, seedKg: 2.5, blendKg: 27.5 });
    expect(answer.ifPerHoney.seedGramsPer100GramsOfBlend).toBe(9.09);
    expect(answer.ifOfBlend).toMatchObject({ seedKg: 2.778, seedGramsPer100GramsOfBlend: 10 });
  });

  test('a wanted blend is split so that the grams add up', async () => {
    const body = { wantedBlendKg: 30, percent: 10, convention: 'ofBlend' };
    expect((await ask('seeding', body)).masses).toMatchObject({ honeyKg: 27, seedKg: 3 });
    const odd = { wantedBlendKg: 10.001, percent: 10, convention: 'perHoney' };
    const { honeyKg, seedKg } = (await ask('seeding', odd)).masses;
    expect(Math.round(1000 * (Number(honeyKg) + Number(seedKg)))).toBe(10_001);
  });

  // Heat balance by hand: 25 kg at 30 °C and 2.5 kg at 18 °C, alike in the rest: (25·30 + 2.5·18) / 27.5 = 28.9 °C. Recipes: FAO Bulletin 124.
  test('honey too warm for seed is warned of', async () => {
    const seed = { percent: 10, convention: 'perHoney', seedC: 18, seedCrystalPercent: 0 };
    const warm = await ask('seeding', { ...seed, honeyKg: 25, honeyC: 30 });
    expect(warm.blendHeat.temperatureC).toBeCloseTo(28.9, 1);
    expect(warm.blendHeat).toMatchObject({ verdict: 'too-warm', meltsOnContact: true });
    expect(warm.warning).toMatch(/24 °C/);

    const cool = await ask('seeding', { ...seed, honeyKg: 25, honeyC: 23 });
    expect(cool.blendHeat).toMatchObject({ verdict: 'fine', seedMeltedPercent: 0 });
    expect(cool.warning).toBeNull();
  });

  // Common practice, no source: the set follows its seed.
  test('seed coarser than the honey would set is warned of', async () => {
    const grains = { seedGrain: 'coarse', honeyGrain: 'fine' };
    const body = { honeyKg: 25, percent: 10, convention: 'perHoney', ...grains };
    const answer = await ask('seeding', body);
    expect(answer.grain).toEqual({ expected: 'coarse', seedTooCoarse: true });
    expect(answer.warning).toMatch(/finer seed/);
  });

  // Mass balance by hand: 0.25 kg at a tenth makes 2.5 kg, half kept is 1.25 kg; five times as much each month.
  test('a little seed becomes enough, batch by batch', async () => {
    const buildUp = { startSeedKg: 0.25, wantedSeedKg: 6, keepPercentOfBlend: 50 };
    const body = { honeyKg: 25, percent: 10, convention: 'ofBlend', buildUp };
    const answer = await ask('seeding', body);
    expect(answer.buildUp).toMatchObject({ outcome: 'enough', afterMonths: 2 });
    const inHand = answer.buildUp.batches.map((batch: { seedInHandKg: number }) => [
      batch.seedInHandKg,
    ]);
    expect(inHand).toEqual([[1.25], [6.25]]);

    const never = await ask('seeding', {
      ...body,
      buildUp: { ...buildUp, keepPercentOfBlend: 5 },
    });
    expect(never.buildUp).toMatchObject({ outcome: 'never', keepMoreThanPercentOfBlend: 10 });
  });

  test('a share beyond sense and a heat beyond the method are refused by field and range', async () => {
    expect(await refusal('seeding', { honeyKg: 25, percent: 60, convention: 'ofBlend' })).toEqual([
      '#/percent',
      'percent must be a number from 0 to 50; got 60.',
    ]);
    const warm = { honeyKg: 25, percent: 10, convention: 'perHoney', honeyC: 90, seedC: 18 };
    expect((await refusal('seeding', warm))[0]).toBe('#/honeyC');
    expect((await refusal('seeding', { percent: 10, convention: 'perHoney' }))[0]).toBe('#');
  });
});

describe('keeping', () => {
  // White, Kushnir & Subers 1964: half of the diastase is left after 31 days at 40 °C, of the invertase after 9.6 days; the fit is within 2 %.
  test('half-lives come out as published', async () => {
    const diastase = await ask('keeping', { steps: [{ temperatureC: 40, hours: 31 * 24 }] });
    expect(Math.abs(diastase.cost.diastaseLeftPercent - 50)).toBeLessThan(1);
    const invertase = await ask('keeping', { steps: [{ temperatureC: 40, hours: 230.4 }] });
    expect(Math.abs(invertase.cost.invertaseLeftPercent - 50)).toBeLessThan(1);
  });

  // White et al. in the Manual of Beekeeping and others: 30 mg/kg take 4 to 10 days at 50 °C.
  test('the HMF of ten days at 50 °C is 30 mg/kg by the slowest, 75 by the fastest', async () => {
    const { cost } = await ask('keeping', { steps: [{ temperatureC: 50, hours: 240 }] });
    expect(cost.hmfGainMgPerKg.least).toBeCloseTo(30, 1);
    expect(cost.hmfGainMgPerKg.most).toBeCloseTo(75, 1);
  });

  test('what is left of the law’s and the club’s limits is told, and which binds', async () => {
    const body = {
      steps: [{ temperatureC: 40, hours: 48 }],
      before: { hmfMgPerKg: 5, diastaseNumber: 16 },
      clubLimits: { hmfMgPerKg: 15 },
      keptAtC: 20,
    };
    const answer = await ask('keeping', body);
    // 30 mg/kg in 20 days at 40 °C by the fastest: 3 in two days.
    expect(answer.after.hmfMgPerKg).toBeCloseTo(8, 1);
    expect(answer.binding).toMatchObject({ limit: 'hmf', rule: 'club', limitValue: 15 });
    // 7 mg/kg at 30 in 300 days (20 °C).
    expect(answer.binding.daysLeft).toBeGreaterThanOrEqual(69);
    expect(answer.binding.daysLeft).toBeLessThanOrEqual(70);
    expect(answer.limits).toHaveLength(3);
    expect(answer.inputs).toMatchObject({ legalKind: 'general', longestGapHours: 2 });
  });

  test('without a start nothing is said of limits', async () => {
    const answer = await ask('keeping', { steps: [{ temperatureC: 40, hours: 48 }] });
    expect([answer.after, answer.limits, answer.binding]).toEqual([null, [], null]);
  });

  test('readings count like steps, and a gap is counted at its warmer end and told', async () => {
    const at = (hour: number) => new Date(Date.UTC(2026, 0, 1, hour)).toISOString();
    const logged = [0, 1, 2, 3, 4].map((hour) => ({ at: at(hour), temperatureC: 40 }));
    const readings = await ask('keeping', { readings: logged });
    const steps = await ask('keeping', { steps: [{ temperatureC: 40, hours: 4 }] });
    expect(readings.cost).toEqual(steps.cost);
    expect(readings.gapHours).toBe(0);

    const gap = await ask('keeping', {
      readings: [
        { at: at(0), temperatureC: 10 },
        { at: at(4), temperatureC: 40 },
      ],
    });
    expect(gap).toMatchObject({ gapHours: 4, cost: steps.cost });
  });

  test('what is out of range or out of order is refused at its place', async () => {
    const steps = [
      { temperatureC: 40, hours: 1 },
      { temperatureC: 95, hours: 1 },
    ];
    expect(await refusal('keeping', { steps })).toEqual([
      '#/steps/1/temperatureC',
      'temperatureC must be a number from -40 to 80; got 95.',
    ]);
    const readings = [
      { at: '2026-01-01T10:00:00Z', temperatureC: 20 },
      { at: '2026-01-01T09:00:00Z', temperatureC: 20 },
    ];
    expect((await refusal('keeping', { readings }))[0]).toBe('#/readings/1/at');
    expect((await refusal('keeping', { readings, steps }))[0]).toBe('#');
    const before = { hmfMgPerKg: 5, diastaseNumber: 16 };
    const cold = { steps: [{ temperatureC: 40, hours: 1 }], before, keptAtC: 4 };
    expect(await refusal('keeping', cold)).toEqual([
      '#/keptAtC',
      'keptAtC must be a number from 10 to 80; got 4.',
    ]);
  });
});
