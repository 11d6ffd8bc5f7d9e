import { cautions } from '../../src/core/cautions';
import { useService } from '../support/service';
import { nobody } from '../support/world';

const service = useService();

/** Somebody without an account asks. */
async function ask(calculator: string, body: object) {
  const answer = await nobody(service).post(`/calculations/${calculator}`, body);
  expect([answer.status, answer.body.errors]).toEqual([200, undefined]);
  return answer.body;
}

async function refusal(calculator: string, body: object): Promise<[string, string]> {
  const { status, body: problem } = await nobody(service).post(`/calculations/${calculator}`, body);
  expect([status, problem.type]).toEqual([422, '/problems/invalid']);
  expect(problem.errors).toHaveLength(1);
  return [problem.errors[0].pointer, problem.errors[0].detail];
}

const aPail = { count: 1 };

/** A request that each calculator answers. */
const plain: [calculator: string, body: object][] = [
  ['moisture', { refractiveIndex: 1.4915 }],
  ['seeding', { honeyKg: 25, percent: 10, convention: 'perHoney' }],
  ['warming', { pails: [aPail], airC: 45, hours: 48 }],
  ['cooling', { pails: [aPail] }],
  ['keeping', { steps: [{ temperatureC: 40, hours: 48 }] }],
  ['fermentation', { moisturePercent: 17 }],
  ['setting', { plant: 'rape (Brassica napus)' }],
  ['net-quantity', { nominalG: 454 }],
];

describe.each(plain)('the %s calculation', (calculator, body) => {
  test('needs no account, says what it understood, how it reckons, from whom, and for what it holds', async () => {
    const answer = await ask(calculator, body);

    expect(answer.inputs).toMatchObject(body);
    expect(answer.method.length).toBeGreaterThan(50);
    expect(answer.source).toMatch(/\d{4}|Directive/);
    expect(answer.validRange).toMatch(/\d+ to [\d,]+/);
  });

  test('warns of what can hurt somebody: no honey for infants, and what else belongs to it', async () => {
    const answer = await ask(calculator, body);

    expect(answer.cautions).toContain(cautions.infants);
    expect(answer.cautions.length).toBeGreaterThan(1);
    if (['warming', 'cooling', 'seeding'].includes(calculator)) {
      expect(answer.cautions).toContain(cautions.burns);
      expect(answer.cautions).toContain(cautions.lifting);
      expect(answer.cautions).toContain(cautions.estimates);
    }
    if (calculator === 'net-quantity') expect(answer.cautions).toContain(cautions.law);
    if (calculator === 'seeding') expect(answer.cautions).toContain(cautions.bees);
  });

  test('gives the same answer twice', async () => {
    expect(await ask(calculator, body)).toEqual(await ask(calculator, body));
  });
});

describe('moisture', () => {
  // Chataway 1932 and Wedmore 1955, table in Bogdanov, Book of Honey, ch. 4: 1.4915 at 20 °C is 18.0 %; 1.4940 is 17.0 %.
  test.each([
    [1.4915, 18.0],
    [1.494, 17.0],
  ])('an index of %d at 20 °C is %d % water, and back', async (refractiveIndex, percent) => {
    const { moisturePercent } = await ask('moisture', { refractiveIndex });
    expect(Math.abs(moisturePercent - percent)).toBeLessThan(0.05);

    const back = await ask('moisture', { moisturePercent: percent });
    expect(Math.abs(back.refractiveIndex - refractiveIndex)).toBeLessThan(0.0001);
  });

  // AOAC 969.38: 0.00023 is added for each degree above 20 °C.
  test('a warm reading is corrected to 20 °C', async () => {
    const answer = await ask('moisture', { refractiveIndex: 1.49, temperatureC: 25 });
    expect(answer.refractiveIndexAt20C).toBeCloseTo(1.49115, 5);
    expect(answer.refractiveIndex).toBe(1.49);
  });

  test('both ends of the table are answered', async () => {
    expect((await ask('moisture', { refractiveIndex: 1.474 })).moisturePercent).toBeCloseTo(25, 1);
    expect((await ask('moisture', { refractiveIndex: 1.5044 })).moisturePercent).toBeCloseTo(13, 1);
  });

  // Density: White, USDA: 18 % has a specific gravity of 1.4171; water 998.2 kg/m³. Conductivity: Helvey 1954: 17 % at 21 °C 0.536 W/m·K.
  test('what follows from it stands beside it', async () => {
    const answer = await ask('moisture', { moisturePercent: 18 });
    expect(answer.densityAt20CKgPerM3.value).toBeCloseTo(1.4171 * 998.2, 0);

    const warmer = await ask('moisture', { moisturePercent: 17, propertiesAtC: 21 });
    expect(warmer.conductivityWPerMK.value).toBeCloseTo(0.536, 3);
  });

  test('where a table ends there is a reason in place of a number', async () => {
    const answer = await ask('moisture', { moisturePercent: 23, propertiesAtC: 5 });
    expect(answer.densityAt20CKgPerM3.value).toBeNull();
    expect(answer.densityAt20CKgPerM3.outOfRange).toMatch(/^moisturePercent .*13 to 21/);
    expect(answer.viscosityPaS.outOfRange).toMatch(/13.7 to 21.5/);
  });

  test('a reading beyond the table is refused, with the readings that work at that temperature', async () => {
    expect(await refusal('moisture', { refractiveIndex: 1.33, temperatureC: 20 })).toEqual([
      '#/refractiveIndex',
      'refractiveIndex must be a number from 1.474 to 1.5044; got 1.33.',
    ]);
    expect((await refusal('moisture', { refractiveIndex: 1.49, temperatureC: 60 }))[0]).toBe(
      '#/temperatureC',
    );
    expect(await refusal('moisture', { moisturePercent: 30 })).toEqual([
      '#/moisturePercent',
      'moisturePercent must be a number from 13 to 25; got 30.',
    ]);
  });

  test('a reading and a moisture, or neither, is refused', async () => {
    expect((await refusal('moisture', {}))[0]).toBe('#');
    expect((await refusal('moisture', { refractiveIndex: 1.49, moisturePercent: 18 }))[0]).toBe(
      '#',
    );
  });
});

describe('fermentation', () => {
  // Lochhead 1933, Zentralblatt für Bakteriologie II 88, 296–302.
  test.each([
    [17.0, 'safe', null],
    [17.5, 'safe-below-count', 1000],
    [18.5, 'safe-below-count', 10],
    [19.5, 'safe-below-count', 1],
    [20.5, 'always-in-danger', null],
  ])('honey of %d % water is in the class %s', async (moisturePercent, kind, count) => {
    const { before } = await ask('fermentation', { moisturePercent });
    expect([before.class, before.safeBelowYeastPerG]).toEqual([kind, count]);
  });

  // Mass balance: crystals of glucose monohydrate hold 9.09 % water, so 18 % with 15 g of crystals leaves 19.57 % in the rest.
  test('setting makes the liquid between the crystals wetter, and is warned of', async () => {
    const answer = await ask('fermentation', { moisturePercent: 18, yeastPerG: 200 });
    expect(answer.afterSetting.moisturePercent).toBeCloseTo(19.57, 2);
    expect([answer.before.risk, answer.afterSetting.risk]).toEqual(['safe', 'in-danger']);
    expect(answer.worsensOnSetting).toBe(true);
    expect(answer.warning).toMatch(/19.57 % water/);
    expect((await ask('fermentation', { moisturePercent: 14 })).warning).toBeNull();
  });

  test('what no table covers is refused by field and range', async () => {
    expect(await refusal('fermentation', { moisturePercent: 40 })).toEqual([
      '#/moisturePercent',
      'moisturePercent must be a number from 10 to 30; got 40.',
    ]);
    expect(await refusal('fermentation', { moisturePercent: 18, crystalPercent: 60 })).toEqual([
      '#/crystalPercent',
      'crystalPercent must be a number from 0 to 25; got 60.',
    ]);
  });
});

describe('setting', () => {
  // Manikis & Thrasyvoulou 2001: glucose over water above 2.1 sets fast, below 1.70 slowly; means of plants: Persano Oddo & Piro 2004.
  test('rape sets fast and false acacia hardly, by the means of each plant', async () => {
    const rape = await ask('setting', { plant: 'rape (Brassica napus)' });
    expect([rape.readiness, rape.willSet]).toEqual(['fast', 'yes']);
    expect(rape.composition[0]).toMatchObject({ what: 'glucose', from: 'default' });
    expect(rape.composition[0].source).toMatch(/Persano Oddo & Piro 2004/);
    expect(rape.composition[0].status).toBe('from memory, medium');

    const acacia = await ask('setting', { plant: 'false acacia (Robinia)' });
    expect([acacia.readiness, acacia.willSet]).toEqual(['slow', 'doubtful']);
  });

  test('a measured share takes the place of the mean, and says so', async () => {
    const answer = await ask('setting', { moisturePercent: 20 });
    expect(answer.inputs).toEqual({ plant: 'any honey', moisturePercent: 20 });
    // 31.3 is the mean glucose of White et al. 1962, USDA Technical Bulletin 1261.
    expect(answer.glucoseToWater).toBeCloseTo(31.3 / 20, 3);
    expect(answer.composition[2]).toEqual({
      what: 'moisture',
      percent: 20,
      from: 'measured',
      source: null,
      status: null,
    });
  });

  test('a share that no honey has is refused by field and range', async () => {
    expect(await refusal('setting', { glucosePercent: 80 })).toEqual([
      '#/glucosePercent',
      'glucosePercent must be a number from 10 to 60; got 80.',
    ]);
  });
});

describe('net quantity', () => {
  // OIML R 87, Table 1: 3 % of 300 to 500 g, rounded up to 0.1 g; 15 g from 500 to 1000 g; 9 g from 200 to 300 g.
  test.each([
    [454, 13.7],
    [250, 9],
    [1000, 15],
  ])('a pot of %d g may be short by %d g', async (nominalG, toleranceG) => {
    const answer = await ask('net-quantity', { nominalG });
    expect(answer.tolerableDeficiencyG).toBe(toleranceG);
    expect(answer.forbiddenBelowG).toBeCloseTo(nominalG - 2 * toleranceG, 1);
  });

  test('weighed pots pass when their mean reaches the label and none is too light', async () => {
    const weighedG = [...Array<number>(29).fill(456), 441];
    const { weighed } = await ask('net-quantity', { nominalG: 454, weighedG });
    expect(weighed).toMatchObject({ pots: 30, inadequate: 0, forbidden: 0, passes: true });

    const light = await ask('net-quantity', { nominalG: 454, weighedG: [470, 430] });
    expect(light.weighed).toMatchObject({ inadequate: 1, inadequateAllowed: 0, passes: false });
  });

  test('the pots of a batch and the rest add up to it', async () => {
    const potting = { batchKg: 27.5, seedPutByKg: 2.75, lostKg: 0.25, filledG: 456 };
    const answer = await ask('net-quantity', { nominalG: 454, potting });
    expect(answer.potting).toEqual({ pots: 53, leftG: 332 });
    expect(53 * 456 + 332).toBe(27_500 - 2750 - 250);
  });

  test('a mass too small to be written without an exponent is refused like any other with too many decimals', async () => {
    expect(await refusal('net-quantity', { nominalG: 454, weighedG: [454, 1e-7] })).toEqual([
      '#/weighedG',
      'weighedG must be a list of numbers with at most 2 decimals.',
    ]);
    expect((await refusal('net-quantity', { nominalG: 1e-7 }))[0]).toBe('#/nominalG');
  });

  test('a label beyond the rules, and more put by than there is, is refused', async () => {
    expect(await refusal('net-quantity', { nominalG: 30_000 })).toEqual([
      '#/nominalG',
      'nominalG must be a number from 5 to 25000; got 30000.',
    ]);
    const potting = { batchKg: 5, seedPutByKg: 6 };
    expect((await refusal('net-quantity', { nominalG: 454, potting }))[0]).toBe(
      '#/potting/seedPutByKg',
    );
  });
});
