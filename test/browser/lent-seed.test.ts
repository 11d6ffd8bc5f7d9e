import { smallTargetsOn } from '../support/accessibility';
import { aLoanWorld, part, press } from '../support/loan-page';
import { lotsOutOfBalance } from '../support/lots';
import { describeInBrowser, useBrowser } from '../support/page';
import { useService } from '../support/service';

// What becomes of seed that was lent, on the page: it is given back, wanted by another day, or turns out to have been other seed.

const service = useService();
const browser = useBrowser();

describeInBrowser('seed that was lent', () => {
  test('is given back: more than is owed, or than the lot holds, is refused with what would do', async () => {
    const { club, seedOf, lentToBen, theLoan, remainingKg, visitorFor } = await aLoanWorld(
      service,
      browser,
    );
    const lotId = await seedOf(club.ada, 'Fine old seed');
    await lentToBen(lotId, 2);
    const ownId = await seedOf(club.ben, 'Ben’s own', 1);
    const borrower = await visitorFor(club.ben);
    const { page } = borrower;
    await press(borrower, 'Give back');
    await page.getByText('2 kg still owed').waitFor();
    await page.getByLabel('Which seed').selectOption({ label: 'Ben’s own, 1 kg free' });
    await page.getByLabel('Mass, kg').fill('3');
    await press(borrower, 'Given back now');
    await page.getByRole('alert').getByText('2 kg are still owed, not 3 kg').waitFor();
    await page.getByLabel('Mass, kg').fill('1.5');
    await press(borrower, 'Given back now');
    await page.getByRole('alert').getByText('“Ben’s own” has 1 kg left, not 1.5 kg.').waitFor();
    expect(await smallTargetsOn(page)).toEqual([]);
    await page.getByLabel('Mass, kg').fill('1');
    await press(borrower, 'Given back now');
    await part(borrower, 'You borrowed').getByText('1 kg still owed').waitFor();
    expect(await theLoan()).toMatchObject({ state: 'lent', owedMassKg: 1 });
    expect(await remainingKg(ownId)).toBe(0);

    // The rest, of what was lent itself: nothing need be filled in.
    await press(borrower, 'Give back');
    await press(borrower, 'Given back now');
    await page.getByText('Over (1)').waitFor();
    await part(borrower, 'Who owes whom').getByText('Nobody owes anybody seed.').waitFor();
    expect((await theLoan()).state).toBe('returned');
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect(borrower.faults).toEqual([]);
  }, 200_000);

  test('is wanted back by another day, and then whenever it suits', async () => {
    const { club, seedOf, lentToBen, theLoan, visitorFor } = await aLoanWorld(service, browser);
    await lentToBen(await seedOf(club.ada, 'Fine old seed'));
    const lender = await visitorFor(club.ada);
    const { page } = lender;
    await press(lender, 'Another day');
    await page.getByLabel('Back by').fill('2001-01-01');
    await press(lender, 'Want it back by then');
    await page
      .getByRole('alert')
      .getByText(/^That day is over: name/)
      .waitFor();
    expect(await smallTargetsOn(page)).toEqual([]);
    await page.getByLabel('Back by').fill('2099-03-01');
    await press(lender, 'Want it back by then');
    await part(lender, 'You lent').getByText('back by 1 Mar 2099').waitFor();
    expect((await theLoan()).dueOn).toBe('2099-03-01');

    await press(lender, 'Another day');
    await page.getByLabel('Back by').fill('');
    await press(lender, 'Want it back by then');
    await page.getByText('back by 1 Mar 2099').waitFor({ state: 'detached' });
    expect((await theLoan()).dueOn).toBeNull();
    expect(lender.faults).toEqual([]);
  }, 200_000);

  test('turns out to be of another tub, and less: the lender puts both right', async () => {
    const { club, ben, seedOf, lentToBen, theLoan, remainingKg, visitorFor, look } =
      await aLoanWorld(service, browser);
    const saidId = await seedOf(club.ada, 'Fine old seed');
    const trueId = await seedOf(club.ada, 'Tub by the door');
    await lentToBen(saidId, 2);
    const lender = await visitorFor(club.ada);
    const { page } = lender;
    // From the loan to what the borrower got, which is what is put right.
    await part(lender, 'You lent').getByRole('link', { name: 'Fine old seed' }).click();
    await page.getByText('Put it right').click();
    const form = part(lender, 'Did something else go in?');
    await form.getByLabel('What really went in').selectOption(trueId);
    await form.getByLabel('How much of it, kg').fill('1');
    await form.getByLabel('How you know').fill('The lids were swapped');
    await press(lender, 'Put it right');
    await form.getByRole('alert').getByText('came from one lot: name all 2 kg').waitFor();
    await form.getByLabel('How much of it, kg').fill('2');
    await press(lender, 'Put it right');
    await form.getByText('Put right.').waitFor();
    await form.getByText('2 kg of “Fine old seed” were “Tub by the door”').waitFor();
    expect(await theLoan()).toMatchObject({ fromLot: { id: trueId }, massKg: 2 });
    expect([await remainingKg(saidId), await remainingKg(trueId)]).toEqual([4, 2]);

    // The form goes on from what is on record now.
    await form.getByLabel('How much of it, kg').fill('0.5');
    await form.getByLabel('How you know').fill('The scales stood on two kilograms of lid');
    await press(lender, 'Put it right');
    await form.getByText('500 g less of “Tub by the door” went in').waitFor();
    expect(await theLoan()).toMatchObject({ massKg: 1.5, owedMassKg: 1.5 });
    expect(await remainingKg(trueId)).toBe(2.5);
    await look(lender);
    await part(lender, 'You lent').getByText(`You lent ${ben} 1.5 kg`).waitFor();
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect(lender.faults).toEqual([]);
  }, 200_000);
});
