import fc from 'fast-check';
import { balancesOf, type OwedLoan } from '../../../src/core/loans/balances';

const loan = (id: string, lenderId: string, borrowerId: string, owedMassG: number): OwedLoan => ({
  id,
  lenderId,
  borrowerId,
  owedMassG,
});

test('loans either way between two are taken together', () => {
  const loans = [
    loan('1', 'ada', 'ben', 1000),
    loan('2', 'ben', 'ada', 1200),
    loan('3', 'cleo', 'ada', 5),
    loan('4', 'ada', 'cleo', 5),
  ];
  expect(balancesOf(loans)).toEqual({
    pairs: [
      { creditorId: 'ada', debtorId: 'cleo', netMassG: 0, loans: [loans[2], loans[3]] },
      { creditorId: 'ben', debtorId: 'ada', netMassG: 200, loans: [loans[0], loans[1]] },
    ],
    members: [
      { memberId: 'ada', owedToG: 1005, owesG: 1205 },
      { memberId: 'ben', owedToG: 1200, owesG: 1000 },
      { memberId: 'cleo', owedToG: 5, owesG: 5 },
    ],
  });
});

test('to the gram: what all are owed is what all owe, and each member’s pairs add up to their net', () => {
  const people = fc.constantFrom('ada', 'ben', 'cleo', 'dora');
  const some = fc.array(fc.tuple(people, people, fc.integer({ min: 1, max: 5000 })));
  fc.assert(
    fc.property(some, (given) => {
      const loans = given
        .filter(([lender, borrower]) => lender !== borrower)
        .map(([lender, borrower, massG], index) => loan(`${index}`, lender, borrower, massG));
      const { pairs, members } = balancesOf(loans);
      const all = loans.reduce((sum, { owedMassG }) => sum + owedMassG, 0);
      expect(members.reduce((sum, { owedToG }) => sum + owedToG, 0)).toBe(all);
      expect(members.reduce((sum, { owesG }) => sum + owesG, 0)).toBe(all);
      expect(pairs.flatMap((pair) => pair.loans)).toHaveLength(loans.length);
      for (const { memberId, owedToG, owesG } of members) {
        const net = pairs.reduce(
          (sum, { creditorId, debtorId, netMassG }) =>
            sum + (creditorId === memberId ? netMassG : debtorId === memberId ? -netMassG : 0),
          0,
        );
        expect(net).toBe(owedToG - owesG);
      }
    }),
  );
});
