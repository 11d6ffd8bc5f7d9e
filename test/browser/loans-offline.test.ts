import { aLoanWorld, part, press } from '../support/loan-page';
import { oneWaits, waitUntilSent } from '../support/offline';
import { describeInBrowser, useBrowser } from '../support/page';
import { useService } from '../support/service';

// What is done about loans where there is no network: it is sent later once, or the page says that it cannot be done there.

const service = useService();
const browser = useBrowser();

describeInBrowser('about a loan, without a network', () => {
  test('seed is asked for once, however often one taps', async () => {
    const { club, ada, theLoan, visitorFor } = await aLoanWorld(service, browser);
    const borrower = await visitorFor(club.ben);
    const { page, context } = borrower;
    await press(borrower, 'Ask for seed');
    await page.getByLabel('From whom').selectOption({ label: ada });
    await context.setOffline(true);
    await page.getByLabel('Mass, kg').fill('1.5');
    await press(borrower, 'Ask');
    await page.getByText('Kept: it is sent as soon as there is a network.').waitFor();
    await page.getByText(`Ask for seed: 1.5 kg, ${ada}`).waitFor();
    await press(borrower, 'Ask');
    await page.getByText(oneWaits).waitFor();

    await context.setOffline(false);
    await waitUntilSent(borrower);
    await part(borrower, 'Others’ turn').getByText(`You asked ${ada} for 1.5 kg`).waitFor();
    expect(await theLoan()).toMatchObject({ state: 'asked', massKg: 1.5 });
    expect(borrower.faults).toEqual([]);
  }, 200_000);

  test('what was agreed on is handed over, and on record once the network is back', async () => {
    const { club, ben, seedOf, theLoan, remainingKg, visitorFor } = await aLoanWorld(
      service,
      browser,
    );
    const lotId = await seedOf(club.ada, 'Fine old seed');
    const { body } = await club.ben
      .post(`${club.path}/loans/asks`, { lotId, massKg: 1 })
      .expect(201);
    await club.ada.post(`${club.path}/loans/${String(body.id)}/acceptance`).expect(200);
    const lender = await visitorFor(club.ada);
    const { page, context } = lender;
    await context.setOffline(true);
    await press(lender, 'Hand it over');
    await page.getByLabel('Mass, kg').fill('0.8');
    await press(lender, 'Handed over now');
    await page.getByText('Kept: it is sent as soon as there is a network.').waitFor();
    await page.getByText(oneWaits).waitFor();
    expect((await theLoan()).state).toBe('accepted');

    await context.setOffline(false);
    await waitUntilSent(lender);
    await part(lender, 'You lent').getByText(`You lent ${ben} 800 g`).waitFor();
    expect(await theLoan()).toMatchObject({ state: 'lent', massKg: 0.8 });
    expect(await remainingKg(lotId)).toBe(3.2);
    expect(lender.faults).toEqual([]);
  }, 200_000);

  test('what was handed over for an ask that was taken back meanwhile is told, and dropped', async () => {
    const { club, seedOf, theLoan, remainingKg, visitorFor } = await aLoanWorld(service, browser);
    const lotId = await seedOf(club.ada, 'Fine old seed');
    const { body } = await club.ben
      .post(`${club.path}/loans/asks`, { lotId, massKg: 1 })
      .expect(201);
    const loan = `${club.path}/loans/${String(body.id)}`;
    await club.ada.post(`${loan}/acceptance`).expect(200);
    const lender = await visitorFor(club.ada);
    const { page, context } = lender;
    await context.setOffline(true);
    await press(lender, 'Hand it over');
    await press(lender, 'Handed over now');
    await page.getByText(oneWaits).waitFor();
    expect((await club.ben.remove(loan)).status).toBe(204);

    await context.setOffline(false);
    await waitUntilSent(lender);
    const refused = page.getByRole('alert').filter({ hasText: 'Hand it over: ' });
    await refused.getByText('the service could not take it').waitFor();
    await refused.getByText(/withdrawn/).waitFor();
    await page.goto(`${service.url}/`);
    await refused.getByRole('link', { name: 'Look there' }).click();
    await page.getByText('Over (1)').click();
    await page.getByText(/^Taken back: 1.kg/).waitFor();
    await refused.getByRole('button', { name: 'Drop it' }).click();
    await refused.waitFor({ state: 'detached' });
    expect((await theLoan()).state).toBe('withdrawn');
    expect(await remainingKg(lotId)).toBe(4);
    expect(lender.faults).toEqual([]);
  }, 200_000);

  test('a day is not moved, and an offer not taken back: the page says so and keeps what was typed', async () => {
    const { club, seedOf, lentToBen, theLoan, visitorFor } = await aLoanWorld(service, browser);
    const lotId = await seedOf(club.ada, 'Fine old seed');
    await lentToBen(lotId);
    const lender = await visitorFor(club.ada);
    const { page, context } = lender;
    await press(lender, 'Another day');
    await page.getByLabel('Back by').fill('2099-03-01');
    await context.setOffline(true);
    await press(lender, 'Want it back by then');
    const alert = page.getByRole('alert');
    await alert.getByText('The service was not reached.').waitFor();
    await alert.getByText('Nothing on this page is lost').waitFor();
    expect(await page.getByLabel('Back by').inputValue()).toBe('2099-03-01');

    await context.setOffline(false);
    await press(lender, 'Want it back by then');
    await part(lender, 'You lent').getByText('back by 1 Mar 2099').waitFor();
    expect((await theLoan()).dueOn).toBe('2099-03-01');
    expect(lender.faults).toEqual([]);
  }, 200_000);
});
