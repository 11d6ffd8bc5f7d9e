import { smallTargetsOn } from '../support/accessibility';
import { withAPassword } from '../support/account';
import { aLot, aSource, lotsOutOfBalance } from '../support/lots';
import { oneWaits, waitUntilSent } from '../support/offline';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

// Loans of seed, worked on the page by both sides on their phones: what each sees, what the service has on record, and the way on where it says no.

const service = useService();
const browser = useBrowser();

let club: ClubWorld;
let source: string;
let ada: string;
let ben: string;

beforeEach(async () => {
  club = await aClub(service);
  source = await aSource(service, club.clubId);
  [ada, ben] = [await nameOf(club.ada), await nameOf(club.ben)];
});

async function nameOf(actor: Actor): Promise<string> {
  return ((await actor.get('/people/me').expect(200)).body as { name: string }).name;
}

/** Four kilograms of seed of that member's. */
async function seedOf(actor: Actor, name: string, massKg = 4): Promise<string> {
  const lotId = await aLot(actor, club, source, { kind: 'seed', massKg });
  await actor.change(`${club.path}/lots/${lotId}`, { name });
  return lotId;
}

async function visitorFor({ personId }: Actor, path = '/seed/loans'): Promise<Visitor> {
  const visitor = await browser.open();
  await signIn(visitor, service, await withAPassword(service, personId));
  await go(visitor, path);
  return visitor;
}

async function go({ page }: Visitor, path: string): Promise<void> {
  await page.goto(`${service.url}${path}`, { waitUntil: 'networkidle' });
}

async function press({ page }: Visitor, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).first().click();
}

/** The part of the screen under that heading. */
function part({ page }: Visitor, title: string) {
  return page.locator('.sheet').filter({ has: page.getByRole('heading', { name: title }) });
}

interface LoanSeen {
  id: string;
  state: string;
  massKg: number;
  owedMassKg: number;
  dueOn: string | null;
  note: string;
  endedBecause: string;
  fromLot: { id: string } | null;
  toLot: { id: string } | null;
}

async function theLoan(): Promise<LoanSeen> {
  const { body } = await club.ada.get(`${club.path}/loans`).expect(200);
  const { items } = body as { items: LoanSeen[] };
  expect(items).toHaveLength(1);
  return items[0]!;
}

async function freeKg(lotId: string): Promise<number> {
  const { body } = await club.ada.get(`${club.path}/lots/${lotId}`).expect(200);
  return (body as { remainingMassKg: number }).remainingMassKg;
}

/** One kilogram of that seed, handed over to Ben. */
async function lentToBen(lotId: string, massKg = 1): Promise<LoanSeen> {
  const { body } = await club.ada
    .post(`${club.path}/loans`, {
      lotId,
      borrowerId: club.ben.memberId,
      massKg,
      at: new Date().toISOString(),
    })
    .expect(201);
  return body as LoanSeen;
}

describeInBrowser('seed that is asked for', () => {
  test('of anybody is promised by who has some; either side may take that back', async () => {
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

    await go(borrower, '/seed/loans');
    await press(borrower, 'Take it back');
    await press(borrower, 'Yes, take it back');
    await part(borrower, 'Others’ turn').waitFor({ state: 'detached' });
    await borrower.page.getByText('Over (1)').click();
    await borrower.page.getByText(/^Taken back: 1\.5.kg/).waitFor();
    expect((await theLoan()).state).toBe('withdrawn');
    expect([...lender.faults, ...borrower.faults]).toEqual([]);
  }, 200_000);

  test('is declined with a reason, which the other reads', async () => {
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
    expect(await freeKg(lotId)).toBe(4);
    expect([...lender.faults, ...borrower.faults]).toEqual([]);
  }, 200_000);
});

describeInBrowser('seed that is offered', () => {
  test('is taken, and handed over in part: more than there is, the page says how much would do', async () => {
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

    await go(lender, '/seed/loans');
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
    expect(await freeKg(lotId)).toBe(1.5);
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect([...lender.faults, ...borrower.faults]).toEqual([]);
  }, 200_000);

  test('is taken back before the other said yes', async () => {
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
    await go(borrower, '/seed/loans');
    await borrower.page.getByText('Over (1)').waitFor();
    expect((await theLoan()).state).toBe('withdrawn');
    expect(borrower.faults).toEqual([]);
  }, 200_000);
});

describeInBrowser('seed that was lent', () => {
  test('is given back: more than is owed, or than the lot holds, is refused with what would do', async () => {
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
    expect(await freeKg(ownId)).toBe(0);

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
    expect([await freeKg(saidId), await freeKg(trueId)]).toEqual([4, 2]);

    // The form goes on from what is on record now.
    await form.getByLabel('How much of it, kg').fill('0.5');
    await form.getByLabel('How you know').fill('The scales stood on two kilograms of lid');
    await press(lender, 'Put it right');
    await form.getByText('500 g less of “Tub by the door” went in').waitFor();
    expect(await theLoan()).toMatchObject({ massKg: 1.5, owedMassKg: 1.5 });
    expect(await freeKg(trueId)).toBe(2.5);
    await page.goto(`${service.url}/seed/loans`);
    await part(lender, 'You lent').getByText(`You lent ${ben} 1.5 kg`).waitFor();
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect(lender.faults).toEqual([]);
  }, 200_000);
});

describeInBrowser('without a network', () => {
  test('seed is asked for once, however often one taps', async () => {
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
    expect(await freeKg(lotId)).toBe(3.2);
    expect(lender.faults).toEqual([]);
  }, 200_000);

  test('a day is not moved, and an offer not taken back: the page says so and keeps what was typed', async () => {
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
