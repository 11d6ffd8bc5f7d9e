import fc from 'fast-check';
import { headroom, LEGAL_LIMITS, type HoneyState } from '../../../src/core/honey/keeping-limits';

describe('what is left of the limits', () => {
  const fresh: HoneyState = { hmfMgPerKg: 10, diastaseNumber: 16, invertaseLeft: 1 };

  // Directive 2001/110/EC, Annex II.
  test('the law asks for HMF of at most 40 mg/kg and diastase of at least 8, with two exceptions', () => {
    expect(LEGAL_LIMITS).toEqual({
      general: { hmfMgPerKg: 40, diastaseNumber: 8 },
      'low-enzyme': { hmfMgPerKg: 15, diastaseNumber: 3 },
      tropical: { hmfMgPerKg: 80, diastaseNumber: 8 },
    });
  });

  // White, Kushnir & Subers 1964: diastase halves at 20 °C in 1480 d. UK club table: +30 in 300 d.
  test('kept at 20 °C, HMF of 10 reaches 40 in 300 days at the earliest; diastase halves in 1480', () => {
    const [binding, other] = headroom({ state: fresh, law: LEGAL_LIMITS.general, keptAtC: 20 });

    expect(binding).toMatchObject({ limit: 'hmf', rule: 'law', limitValue: 40, left: 30 });
    expect(binding!.daysLeft).toBeCloseTo(300, 6);
    expect(other).toMatchObject({ limit: 'diastase', rule: 'law', limitValue: 8, left: 8 });
    expect(Math.abs(other!.daysLeft / 1480 - 1)).toBeLessThan(0.01);
  });

  test('a stricter club limit binds before the law', () => {
    const [binding, ...others] = headroom({
      state: fresh,
      law: LEGAL_LIMITS.general,
      club: { hmfMgPerKg: 15, diastaseNumber: 10, invertaseLeft: 0.8 },
      keptAtC: 20,
    });

    expect(binding).toMatchObject({ limit: 'hmf', rule: 'club', limitValue: 15, left: 5 });
    expect(others.map(({ limit, rule }) => `${rule} ${limit}`)).toContain('club invertase');
    expect(others).toHaveLength(4);
    // By hand: ln(1/0.8) of 820 d / ln 2 (half-life remembered, high).
    const invertase = others.find(({ limit }) => limit === 'invertase')!;
    expect(Math.abs(invertase.daysLeft / ((820 * Math.log(1.25)) / Math.LN2) - 1)).toBeLessThan(
      0.01,
    );
    expect(invertase.left).toBeCloseTo(0.2, 12);
  });

  test('a limit that is reached or passed leaves no day', () => {
    const [binding, other] = headroom({
      state: { hmfMgPerKg: 41, diastaseNumber: 8, invertaseLeft: 1 },
      law: LEGAL_LIMITS.general,
      keptAtC: 14,
    });

    expect([binding!.daysLeft, other!.daysLeft]).toEqual([0, 0]);
    const left = Object.fromEntries([binding!, other!].map((entry) => [entry.limit, entry.left]));
    expect(left).toEqual({ hmf: -1, diastase: 0 });
  });

  test('without any limit there is nothing to bind', () => {
    expect(headroom({ state: fresh, keptAtC: 20 })).toEqual([]);
  });

  test('warmer keeping never leaves more days', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 79, noNaN: true }), (keptAtC) => {
        const days = (temperatureC: number) =>
          headroom({
            state: fresh,
            law: LEGAL_LIMITS.general,
            club: { invertaseLeft: 0.5 },
            keptAtC: temperatureC,
          })[0]!.daysLeft;

        expect(days(keptAtC + 1)).toBeLessThan(days(keptAtC));
      }),
      { numRuns: 1000 },
    );
  });

  test('states, limits and temperatures without sense are refused', () => {
    const of =
      (state: Partial<HoneyState>, keptAtC = 20, club = {}) =>
      () =>
        headroom({ state: { ...fresh, ...state }, club, keptAtC });

    expect(of({ hmfMgPerKg: -1 })).toThrow(/hmfMgPerKg must be a number from 0 to 10000/);
    expect(of({ diastaseNumber: NaN })).toThrow(/diastaseNumber must be a number from 0 to 1000/);
    expect(of({ invertaseLeft: 1.1 })).toThrow(/invertaseLeft must be a number from 0 to 1/);
    expect(of({}, 9)).toThrow(/temperatureC must be a number from 10 to 80/);
    expect(of({}, 20, { hmfMgPerKg: -1 })).toThrow(/hmfMgPerKg must be/);
    expect(of({}, 20, { diastaseNumber: -1 })).toThrow(/diastaseNumber must be/);
    expect(of({}, 20, { invertaseLeft: 2 })).toThrow(/invertaseLeft must be/);
  });
});
