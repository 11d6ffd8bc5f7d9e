import { smallTargetsOn } from '../support/accessibility';
import { withAPassword } from '../support/account';
import { aLot, aSource, lotsOutOfBalance } from '../support/lots';
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
    await borrower.page.getByText(/^Taken back: 1\.5 kg/).waitFor();
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
    await refused.getByText(/4 kg/).waitFor();
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

    // Ben's page still shows the offer when he says yes to it.
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
    await borrower.page.getByRole('alert').waitFor();
    await go(borrower, '/seed/loans');
    await borrower.page.getByText('Over (1)').waitFor();
    expect((await theLoan()).state).toBe('withdrawn');
    expect(borrower.faults).toEqual([]);
  }, 200_000);
});
