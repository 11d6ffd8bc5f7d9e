import { smallTargetsOn } from '../support/accessibility';
import { aLoanWorld, part, press } from '../support/loan-page';
import { lotsOutOfBalance } from '../support/lots';
import { describeInBrowser, useBrowser } from '../support/page';
import { useService } from '../support/service';

// Seed is asked for and offered on the page: what each side sees, what is on record, and the way on where the service says no.

const service = useService();
const browser = useBrowser();

describeInBrowser('seed that is asked for', () => {
  test('of anybody is promised by who has some; either side may take that back', async () => {
    const { club, ben, seedOf, theLoan, visitorFor, look } = await aLoanWorld(service, browser);
    await seedOf(club.ada, 'Fine old seed');
    const borrower = await visitorFor(club.ben);
    await press(borrower, 'Ask for seed');
    await borrower.page.getByLabel('Mass, kg').fill('1.5');
    await borrower.page.getByLabel('Back by').fill('2099-05-01');
    await borrower.page.getByLabel('Note').fill('For the lime of this year');
    await press(borrower, 'Ask');
    await part(borrower, 'Others’ turn').getByText('You asked anybody for 1.5 kg').waitFor();
    await borrower.page.getByText('back by 1 May 2099').waitFor();
    expect(await theLoan()).toMatchObject({
      state: 'asked',
      massKg: 1.5,
      dueOn: '2099-05-01',
      note: 'For the lime of this year',
    });

    const lender = await visitorFor(club.ada);
    const turn = part(lender, 'Your turn');
    await turn.getByText(`${ben} asked anybody for 1.5 kg`).waitFor();
    await turn.getByText('“For the lime of this year”').waitFor();
    await press(lender, 'Say yes');
    await press(lender, 'Yes, agreed');
    await turn.getByText(`You and ${ben} agreed on 1.5 kg: to be handed over`).waitFor();
    expect((await theLoan()).state).toBe('accepted');

    await look(borrower);
    await press(borrower, 'Take it back');
    await press(borrower, 'Yes, take it back');
    await part(borrower, 'Others’ turn').waitFor({ state: 'detached' });
    await borrower.page.getByText('Over (1)').click();
    await borrower.page.getByText(/^Taken back: 1\.5.kg/).waitFor();
    expect((await theLoan()).state).toBe('withdrawn');
    expect([...lender.faults, ...borrower.faults]).toEqual([]);
  }, 200_000);

  test('is declined with a reason, which the other reads', async () => {
    const { club, seedOf, theLoan, remainingKg, visitorFor } = await aLoanWorld(service, browser);
    const lotId = await seedOf(club.ada, 'Fine old seed');
    await club.ben.post(`${club.path}/loans/asks`, { lotId, massKg: 2 }).expect(201);
    const lender = await visitorFor(club.ada);
    await press(lender, 'Say no');
    await lender.page.getByLabel('Why, if you like').fill('I need all of it on Friday');
    expect(await smallTargetsOn(lender.page)).toEqual([]);
    await press(lender, 'No, decline');
    await part(lender, 'Your turn').getByText('Nobody waits for you.').waitFor();

    expect(await theLoan()).toMatchObject({
      state: 'declined',
      endedBecause: 'I need all of it on Friday',
    });
    const borrower = await visitorFor(club.ben);
    await borrower.page.getByText('Over (1)').click();
    await borrower.page.getByText('“I need all of it on Friday”').waitFor();
    expect(await remainingKg(lotId)).toBe(4);
    expect([...lender.faults, ...borrower.faults]).toEqual([]);
  }, 200_000);
});

describeInBrowser('seed that is offered', () => {
  test('is taken, and handed over in part: more than there is, the page says how much would do', async () => {
    const { club, ada, ben, seedOf, theLoan, remainingKg, visitorFor, look } = await aLoanWorld(
      service,
      browser,
    );
    const lotId = await seedOf(club.ada, 'Fine old seed');
    const lender = await visitorFor(club.ada);
    const { page } = lender;
    await press(lender, 'Offer or hand over');
    await press(lender, 'Offer it first');
    await page.getByLabel('To whom').selectOption({ label: ben });
    await page.getByText('4 kg free', { exact: true }).waitFor();
    await page.getByLabel('Mass, kg').fill('6');
    expect(await smallTargetsOn(page)).toEqual([]);
    await press(lender, 'Offer it');
    await part(lender, 'Others’ turn').getByText(`You offered ${ben} 6 kg`).waitFor();

    const borrower = await visitorFor(club.ben);
    await borrower.page.getByText(`${ada} offered you 6 kg`).waitFor();
    await press(borrower, 'Say yes');
    await press(borrower, 'Yes, agreed');
    await part(borrower, 'Others’ turn').getByText('agreed on 6 kg').waitFor();

    await look(lender);
    await press(lender, 'Hand it over');
    await press(lender, 'Handed over now');
    const refused = page.getByRole('alert');
    await refused.getByText('“Fine old seed” has 4 kg left, not 6 kg.').waitFor();
    expect((await theLoan()).state).toBe('accepted');
    await page.getByLabel('Mass, kg').fill('2.5');
    await page.getByLabel('Back by').fill('2099-06-30');
    await press(lender, 'Handed over now');
    await part(lender, 'You lent').getByText(`You lent ${ben} 2.5 kg`).waitFor();
    await part(lender, 'Who owes whom').getByText(`${ben} owes you 2.5 kg`).waitFor();

    expect(await theLoan()).toMatchObject({
      state: 'lent',
      massKg: 2.5,
      owedMassKg: 2.5,
      dueOn: '2099-06-30',
      fromLot: { id: lotId },
    });
    expect(await remainingKg(lotId)).toBe(1.5);
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect([...lender.faults, ...borrower.faults]).toEqual([]);
  }, 200_000);

  test('is taken back before the other said yes', async () => {
    const { club, seedOf, theLoan, visitorFor } = await aLoanWorld(service, browser);
    const lotId = await seedOf(club.ada, 'Fine old seed');
    await club.ada
      .post(`${club.path}/loans/offers`, { lotId, borrowerId: club.ben.memberId, massKg: 1 })
      .expect(201);
    const lender = await visitorFor(club.ada);
    await press(lender, 'Take it back');
    await press(lender, 'Yes, take it back');
    await lender.page.getByText('Over (1)').waitFor();
    expect((await theLoan()).state).toBe('withdrawn');
    expect(lender.faults).toEqual([]);
  }, 200_000);

  test('and taken back while the other says yes: they are told, and see how it stands', async () => {
    const { club, seedOf, theLoan, visitorFor, look } = await aLoanWorld(service, browser);
    const lotId = await seedOf(club.ada, 'Fine old seed');
    const { body } = await club.ada
      .post(`${club.path}/loans/offers`, { lotId, borrowerId: club.ben.memberId, massKg: 1 })
      .expect(201);
    const borrower = await visitorFor(club.ben);
    await press(borrower, 'Say yes');
    await club.ada.remove(`${club.path}/loans/${String(body.id)}`);
    await press(borrower, 'Yes, agreed');
    await borrower.page
      .getByRole('alert')
      .getByText('That does not come next for the loan')
      .waitFor();
    await look(borrower);
    await borrower.page.getByText('Over (1)').waitFor();
    expect((await theLoan()).state).toBe('withdrawn');
    expect(borrower.faults).toEqual([]);
  }, 200_000);
});
