import { withAPassword } from '../support/account';
import { aLot, aSource, lotsOutOfBalance } from '../support/lots';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { aSeedLine } from '../support/seed-line';
import { useService } from '../support/service';
import { aSuspectLine } from '../support/suspect-line';
import { aClub, type Actor } from '../support/world';

// Seed on the page: who lends it to whom, where it comes from and where it went, and how a suspect line is stopped.

const service = useService();
const browser = useBrowser();

async function visitorFor({ personId }: Actor, path: string, width = 360): Promise<Visitor> {
  const visitor = await browser.open({ width, height: 740 });
  await signIn(visitor, service, await withAPassword(service, personId));
  await visitor.page.goto(`${service.url}${path}`);
  return visitor;
}

async function press({ page }: Visitor, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).first().click();
}

describeInBrowser('a loan of seed', () => {
  test('is asked for, agreed on, handed over, given back in part, and the rest forgiven', async () => {
    const club = await aClub(service);
    const source = await aSource(service, club.clubId);
    const lotId = await aLot(club.ada, club, source, { kind: 'seed', massKg: 4 });
    await club.ada.change(`${club.path}/lots/${lotId}`, { name: 'Fine old seed' });
    const names = Object.fromEntries(
      (await club.ada.get(`${club.path}/members`)).body.items.map(
        ({ id, name }: { id: string; name: string }) => [id, name],
      ),
    ) as Record<string, string>;
    const [ada, ben] = [names[club.ada.memberId]!, names[club.ben.memberId]!];

    const borrower = await visitorFor(club.ben, '/seed');
    await borrower.page.getByRole('button', { name: 'Ask for some: Fine old seed' }).click();
    await borrower.page.getByLabel('Mass, kg').fill('1.5');
    await press(borrower, 'Ask');
    await borrower.page.getByRole('button', { name: 'Ask for some: Fine old seed' }).waitFor();

    const lender = await visitorFor(club.ada, '/seed/loans');
    await lender.page.getByText(`${ben} asked you for 1.5 kg`).waitFor();
    await press(lender, 'Say yes');
    await press(lender, 'Yes, agreed');
    await press(lender, 'Hand it over');
    await press(lender, 'Handed over now');
    await lender.page.getByText(`${ben} owes you 1.5 kg`).waitFor();

    await borrower.page.goto(`${service.url}/seed/loans`);
    await borrower.page.getByText(`You owe ${ada} 1.5 kg`).waitFor();
    await press(borrower, 'Give back');
    await borrower.page.getByLabel('Mass, kg').fill('2');
    await press(borrower, 'Given back now');
    await borrower.page
      .getByRole('alert')
      .getByText(/1\.5 kg are still owed/)
      .waitFor();
    await borrower.page.getByLabel('Mass, kg').fill('1');
    await press(borrower, 'Given back now');
    await borrower.page.getByText(`You owe ${ada} 500 g`).waitFor();

    await lender.page.goto(`${service.url}/lots/${lotId}`);
    await press(lender, 'Another day');
    await lender.page.getByLabel('Back by').last().fill('2099-03-01');
    await press(lender, 'Want it back by then');
    await lender.page.getByText(/back by 1 Mar 2099/).waitFor();
    await press(lender, 'Forgive the rest');
    await lender.page.getByLabel('Why, if you like').fill('Old friends');
    await press(lender, 'Yes, forgive it');
    await lender.page.getByText(/^Forgiven: /).waitFor();

    const loan = await service.prisma.loan.findFirstOrThrow({ where: { clubId: club.clubId } });
    expect(loan).toMatchObject({
      state: 'forgiven',
      massG: 1500,
      returnedMassG: 1000,
      forgivenMassG: 500,
      endedBecause: 'Old friends',
    });
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect([...lender.faults, ...borrower.faults]).toEqual([]);
  }, 300_000);
});

describeInBrowser('a lineage', () => {
  test('is walked along by arrow keys to another lot, and on from there', async () => {
    const club = await aClub(service);
    const source = await aSource(service, club.clubId);
    const line = await aSeedLine(service, club.clubId, club.ada.memberId, source, 9);
    const { page, faults } = await visitorFor(club.ada, `/lots/${line.lastSeedId}`, 1280);
    const drawing = page.getByRole('group', { name: /^Lineage of / });
    const hasFocus = (name: RegExp) =>
      page.locator('a:focus').and(page.getByRole('link', { name })).waitFor();

    await drawing
      .getByRole('link', { name: /this lot/ })
      .first()
      .focus();
    await page.keyboard.press('ArrowLeft');
    await hasFocus(/^creamed at depth 17 .*100 % of this lot/);
    await page.keyboard.press('ArrowLeft');
    await hasFocus(/^honey at depth 0 /);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Home');
    await hasFocus(/^seed at depth 18 /);
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');

    await page.getByRole('heading', { level: 1, name: 'creamed at depth 17' }).waitFor();
    await hasFocus(/^creamed at depth 17 .*this lot/);
    await page.keyboard.press('ArrowRight');
    await hasFocus(/^seed at depth 18 .*100 % of it is this lot/);

    const drawn = await drawing.getByRole('link').count();
    expect(drawn).toBe(16);
    await page.getByRole('button', { name: 'Show more: 12 are farther away' }).click();
    await page.getByRole('button', { name: /^Show more: / }).waitFor({ state: 'detached' });
    expect(await drawing.getByRole('link').count()).toBe(28);
    expect(faults).toEqual([]);
  }, 300_000);
});

describeInBrowser('a long lineage', () => {
  test('is drawn near the lot first, then up to 300 lots, and says how many are farther away', async () => {
    const club = await aClub(service);
    const source = await aSource(service, club.clubId);
    const line = await aSeedLine(service, club.clubId, club.ada.memberId, source, 100);
    const { page, faults } = await visitorFor(club.ada, `/lots/${line.lastSeedId}`);
    const drawn = page.getByRole('group', { name: /^Lineage of / }).getByRole('link');
    await drawn.first().waitFor();

    const counts = [await drawn.count()];
    for (const count of [48, 120, 300]) {
      await page.getByRole('button', { name: /^Show more: / }).click();
      await drawn.nth(count - 1).waitFor();
      counts.push(await drawn.count());
    }

    expect(counts).toEqual([16, 48, 120, 300]);
    await page.getByText('1 more are farther away').waitFor();
    expect(faults).toEqual([]);
  }, 300_000);
});

describeInBrowser('a suspect line', () => {
  test('is stopped, found, and released by the branch on evidence', async () => {
    const { club, seedId, creamedId, nextSeedId } = await aSuspectLine(service);
    const steward = await visitorFor(club.steward, `/lots/${seedId}`);
    const { page } = steward;
    await page.locator('summary', { hasText: 'Put a hold on it' }).click();
    await page.getByLabel('What is wrong').fill('Smells of vinegar');
    await page.getByLabel('What speaks for it').fill('Two noses');
    await press(steward, 'Put a hold on it');
    await page.getByText(/^It reaches 3 lots with 1 holder;/).waitFor();
    await page
      .getByRole('link', { name: /⚠ on hold/ })
      .first()
      .waitFor();

    await page.getByRole('link', { name: 'Where did it go?' }).first().click();
    await page.getByText('It began with 5 kg and is in 2 other lots').waitFor();
    await page.getByLabel('and at least, g of it').fill('1000');
    await page.getByText('1 lots with too little of it are not listed').waitFor();

    await page.goto(`${service.url}/seed/holds`);
    await page.locator('summary', { hasText: 'Release the hold' }).click();
    await page.getByLabel('What is released').selectOption(nextSeedId);
    await page.getByLabel('Why it is all right').fill('It was the jar');
    await page.getByLabel(/^What shows it/).fill('Tasted by three');
    await press(steward, 'Release this branch alone');
    await page
      .getByText(/^Branch from “.*” released by .* It was the jar Tasted by three$/)
      .waitFor();

    const onHold = async (id: string) =>
      ((await club.ada.get(`${club.path}/lots/${id}`)).body.onHold as string[]).length;
    expect([await onHold(creamedId), await onHold(nextSeedId)]).toEqual([1, 0]);
    expect(steward.faults).toEqual([]);
  }, 300_000);
});
