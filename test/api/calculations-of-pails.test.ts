import { conductivityWPerMK } from '../../src/core/honey/conductivity';
import { densityAt20CKgPerM3 } from '../../src/core/honey/density';
import { specificHeatJPerKgK } from '../../src/core/honey/specific-heat';
import {
  cylinderLeft,
  cylinderTerms,
  wallLeft,
  wallTerms,
} from '../core/honey/analytic-conduction';
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

interface Point {
  atHours: number;
  coreC: number;
  surfaceC: number;
  meanC: number;
  meltedPercent: number;
  warmestC: number;
}

const pail = { count: 1, diameterCm: 30, heightCm: 28, startC: 12 };
const cabinet = { heaterW: 500, lossWPerK: 3, thermostatC: 45 };

/** Carslaw & Jaeger 1959: the exact series of a finite cylinder with a film of 8 W/m²·K on every face; the part of the first difference left. */
function exactLeft(): (hours: number) => number {
  const waterPercent = 17.2;
  const conductivity = conductivityWPerMK({ waterPercent, temperatureC: 30 });
  const diffusivity =
    conductivity / (densityAt20CKgPerM3(waterPercent) * specificHeatJPerKgK(waterPercent));
  const [radiusM, halfHeightM] = [0.15, 0.14];
  const cylinder = cylinderTerms((8 * radiusM) / conductivity, 10);
  const wall = wallTerms((8 * halfHeightM) / conductivity, 10);
  return (hours) => {
    const fourier = (lengthM: number) => (diffusivity * hours * 3600) / lengthM ** 2;
    return cylinderLeft(cylinder, 0, fourier(radiusM)) * wallLeft(wall, 0, fourier(halfHeightM));
  };
}

describe('warming', () => {
  test('the core of a pail of clear honey warms as the exact series says', async () => {
    const pails = [{ ...pail, crystalPercent: 0 }];
    const answer = await ask('warming', { pails, airC: 45, hours: 48, filmWPerM2K: 8 });
    const left = exactLeft();
    const curve = answer.groups[0].curve as Point[];
    const later = curve.filter(({ atHours }) => atHours >= 6);
    expect(later.length).toBeGreaterThan(20);
    for (const { atHours, coreC } of later) {
      expect(Math.abs(coreC - (45 - 33 * left(atHours)))).toBeLessThan(0.2);
    }
    expect(curve.length).toBeLessThanOrEqual(100);
  });

  // Common practice, no source: pails stand in the warmth for a day or two.
  test('set honey takes longer than clear honey, about two days in all, and costs little', async () => {
    const pails = [{ count: 2 }, { count: 2, crystalPercent: 1 }];
    const answer = await ask('warming', { pails, airC: 45 });
    const [set, clear] = answer.groups;
    expect(set.clearAtHours).toBeGreaterThan(clear.clearAtHours);
    expect(set.clearAtHours).toBeGreaterThan(24);
    expect(set.clearAtHours).toBeLessThan(72);
    expect(answer.allClearAtHours).toBe(set.clearAtHours);
    expect(answer.energy.lostKWh).toBeNull();
    expect(set.cost.worst.diastaseLeftPercent).toBeLessThan(set.cost.mean.diastaseLeftPercent);
    expect(set.cost.mean.diastaseLeftPercent).toBeLessThan(set.cost.best.diastaseLeftPercent);
  });

  test('a pail of which nothing is said holds 25 kg and is filled as high as it is wide', async () => {
    const answer = await ask('warming', { pails: [{ count: 1 }], airC: 45, hours: 24 });
    const [{ massKg, diameterCm, heightCm }] = answer.inputs.pails;
    expect(Math.abs(massKg - 25)).toBeLessThan(0.001);
    expect(diameterCm).toBe(heightCm);
    expect(answer.inputs).toMatchObject({ clearC: 40, filmWPerM2K: 5, hours: 24 });
    const litres = (Math.PI * (diameterCm / 20) ** 2 * heightCm) / 10;
    expect(litres).toBeGreaterThan(17);
    expect(litres).toBeLessThan(18.5);
  });

  test('the heat of a cabinet goes into pails, room and air, and into nothing else', async () => {
    const answer = await ask('warming', { pails: [{ ...pail, count: 4 }], cabinet, hours: 48 });
    const { heaterKWh, pailsKWh, lostKWh } = answer.energy;
    // 20 kJ/K of air and shelves, from 18 to about 45 °C.
    const airKWh = (20_000 * (answer.air.at(-1).airC - 18)) / 3.6e6;
    expect(heaterKWh).toBeCloseTo(Number(pailsKWh) + Number(lostKWh) + airKWh, 2);
    const most = Math.max(...answer.air.map(({ heaterW }: { heaterW: number }) => heaterW));
    expect(most).toBeLessThanOrEqual(500);
    expect(answer.inputs.cabinet).toMatchObject({ roomC: 18, startC: 18 });
  });

  test('the gentlest temperature by a deadline clears in time and spares more than the hottest', async () => {
    const { byDeadline } = await ask('warming', {
      pails: [{ ...pail, count: 4 }],
      cabinet,
      deadlineHours: 96,
    });
    expect(byDeadline.outcome).toBe('found');
    expect(byDeadline.gentlest.clearAtHours).toBeLessThanOrEqual(96);
    expect(byDeadline.soonest.setC).toBe(50);
    expect(byDeadline.gentlest.cost.worst.diastaseLeftPercent).toBeGreaterThan(
      byDeadline.soonest.cost.worst.diastaseLeftPercent,
    );

    const late = await ask('warming', { pails: [pail], cabinet, deadlineHours: 5 });
    expect(late.byDeadline).toEqual({ outcome: 'too-late', gentlest: null, soonest: null });
    const clear = [{ ...pail, crystalPercent: 0 }];
    const already = await ask('warming', { pails: clear, airC: 45, deadlineHours: 5 });
    expect(already.byDeadline.outcome).toBe('clear-already');
  });

  test('in air that is held the gentlest temperature is that of the air', async () => {
    const answer = await ask('warming', { pails: [pail], airC: 45, deadlineHours: 96 });
    const { setC, clearAtHours } = answer.byDeadline.gentlest;
    const check = await ask('warming', { pails: [pail], airC: setC, hours: 96 });
    expect(Math.abs(check.allClearAtHours - clearAtHours)).toBeLessThan(0.2);
  });

  test('what is out of range is refused by field and range', async () => {
    const wet = [{ count: 1 }, { count: 1, moisturePercent: 24 }];
    expect(await refusal('warming', { pails: wet, airC: 45 })).toEqual([
      '#/pails/1/moisturePercent',
      'moisturePercent must be a number from 13 to 21; got 24.',
    ]);
    expect(await refusal('warming', { pails: [pail], airC: 90 })).toEqual([
      '#/airC',
      'airC must be a number from -30 to 75; got 90.',
    ]);
    const hot = { ...cabinet, thermostatC: 80 };
    expect((await refusal('warming', { pails: [pail], cabinet: hot }))[0]).toBe(
      '#/cabinet/thermostatC',
    );
    const crystals = [{ ...pail, crystalPercent: 40 }];
    expect((await refusal('warming', { pails: crystals, airC: 45 }))[0]).toBe(
      '#/pails/0/crystalPercent',
    );
    const wide = [{ count: 1, massKg: 0.5, diameterCm: 60 }];
    expect((await refusal('warming', { pails: wide, airC: 45 }))[1]).toMatch(
      /^heightCm .*8 to 100/,
    );
    expect((await refusal('warming', { pails: [{ ...pail, massKg: 25 }], airC: 45 }))[0]).toBe(
      '#/pails/0/massKg',
    );
    const cool = { pails: [pail], airC: 45, deadlineHours: 96, hottestC: 35 };
    expect((await refusal('warming', cool))[0]).toBe('#/hottestC');
    const many = { pails: [pail, pail, pail], airC: 45, deadlineHours: 96 };
    expect((await refusal('warming', many))[0]).toBe('#/pails');
    expect((await refusal('warming', { pails: [pail] }))[0]).toBe('#');
    expect((await refusal('warming', { pails: [pail], airC: 45, cabinet }))[0]).toBe('#');
  });
});

describe('cooling', () => {
  test('the mean of a pail falls toward the air, and its warmest point as the exact series says', async () => {
    const pails = [{ ...pail, startC: 42 }];
    const answer = await ask('cooling', { pails, airC: 15, filmWPerM2K: 8 });
    const left = exactLeft();
    const later = (answer.groups[0].curve as Point[]).filter(({ atHours }) => atHours >= 6);
    expect(later.length).toBeGreaterThan(20);
    for (const { atHours, warmestC, meanC, surfaceC } of later) {
      expect(Math.abs(warmestC - (15 + 27 * left(atHours)))).toBeLessThan(0.2);
      expect(surfaceC).toBeLessThanOrEqual(meanC);
      expect(meanC).toBeLessThanOrEqual(warmestC);
    }
    const { belowAtHours } = answer.groups[0];
    expect(Math.abs(15 + 27 * left(belowAtHours) - 24)).toBeLessThan(0.2);
    expect(answer.allBelowAtHours).toBe(belowAtHours);
    expect(answer.inputs).toMatchObject({ belowC: 24, hours: 72 });
  });

  test('air warmer than the limit never cools a pail below it', async () => {
    const answer = await ask('cooling', { pails: [{ count: 1 }], airC: 26 });
    expect([answer.groups[0].belowAtHours, answer.allBelowAtHours]).toEqual([null, null]);
  });

  test('what is out of range is refused by field and range', async () => {
    expect(await refusal('cooling', { pails: [{ count: 1, startC: 90 }] })).toEqual([
      '#/pails/0/startC',
      'startC must be a number from -30 to 75; got 90.',
    ]);
    expect(await refusal('cooling', { pails: [{ count: 1 }], belowC: -5 })).toEqual([
      '#/belowC',
      'belowC must be a number from 0 to 100; got -5.',
    ]);
    expect((await refusal('cooling', { pails: [{ count: 1 }], airC: 90 }))[0]).toBe('#/airC');
  });
});
