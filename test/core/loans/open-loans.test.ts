import fc from 'fast-check';
import { openLoans, type LentSeed } from '../../../src/core/loans/open-loans';

const loan = (
  id: string,
  lenderId: string,
  borrowerId: string,
  massG: number,
  at: number,
): LentSeed => ({
  id,
  lenderId,
  borrowerId,
  massG,
  at,
});

test('what is lent back counts towards the oldest loan first, and the rest of it is a loan of its own', () => {
  const loans = [
    loan('first', 'ada', 'ben', 1000, 1),
    loan('second', 'ada', 'ben', 500, 2),
    loan('to another', 'ada', 'cleo', 700, 3),
    loan('back', 'ben', 'ada', 1200, 4),
  ];
  expect(openLoans(loans)).toEqual(
    new Map([
      ['second', 300],
      ['to another', 700],
    ]),
  );
  expect(openLoans([...loans, loan('more', 'ben', 'ada', 400, 5)])).toEqual(
    new Map([
      ['to another', 700],
      ['more', 100],
    ]),
  );
});

test('what one owes another is all that was lent less all that was lent back, and never both owe', () => {
  const people = fc.constantFrom('ada', 'ben', 'cleo');
  const some = fc.array(fc.tuple(people, people, fc.integer({ min: 1, max: 5000 }), fc.nat(50)), {
    maxLength: 20,
  });
  fc.assert(
    fc.property(some, (given) => {
      const loans = given
        .filter(([lender, borrower]) => lender !== borrower)
        .map(([lender, borrower, massG, at], index) =>
          loan(`${index}`.padStart(3, '0'), lender, borrower, massG, at),
        );
      const open = openLoans(loans);
      const sum = (from: string, to: string, massOf: (one: LentSeed) => number) =>
        loans
          .filter((one) => one.lenderId === from && one.borrowerId === to)
          .reduce((all, one) => all + massOf(one), 0);
      for (const [a, b] of [
        ['ada', 'ben'],
        ['ada', 'cleo'],
        ['ben', 'cleo'],
      ] as const) {
        const [owedToA, owedToB] = [
          sum(a, b, ({ id }) => open.get(id) ?? 0),
          sum(b, a, ({ id }) => open.get(id) ?? 0),
        ];
        expect(owedToA - owedToB).toBe(
          sum(a, b, ({ massG }) => massG) - sum(b, a, ({ massG }) => massG),
        );
        expect(Math.min(owedToA, owedToB)).toBe(0);
      }
    }),
  );
});
