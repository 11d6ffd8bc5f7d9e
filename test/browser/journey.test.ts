import { describeInBrowser, useBrowser, type Visitor } from '../support/page';
import { useService } from '../support/service';

// The whole job in a real browser, on a phone's screen: from an empty installation to what the club has learned.

const service = useService();
const browser = useBrowser();

const password = 'seven slow bees hum along';

async function fill({ page }: Visitor, fields: Record<string, string>): Promise<void> {
  for (const [label, value] of Object.entries(fields)) {
    await page.getByLabel(label, { exact: false }).first().fill(value);
  }
}

async function press({ page }: Visitor, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).first().click();
}

async function go({ page }: Visitor, path: string): Promise<void> {
  await page.goto(`${service.url}${path}`, { waitUntil: 'networkidle' });
}

describeInBrowser('a club', () => {
  test('is founded, invites, creams, lends and learns', async () => {
    const mira = await browser.open();
    await go(mira, '/');
    await press(mira, 'I have none yet');
    await fill(mira, { 'Your name': 'Mira', 'E-mail': 'mira@example.org', Password: password });
    await press(mira, 'Open an account');
    await fill(mira, { 'Name of the club': 'Brummelwick Honey House' });
    await mira.page.getByLabel('Time zone of the room').selectOption('Europe/Vienna');
    await press(mira, 'Found a club');
    await mira.page.getByRole('heading', { name: 'Today' }).waitFor();

    await go(mira, '/club/floral-sources');
    await fill(mira, { 'What the bees worked': 'Lime' });
    await press(mira, 'Add it');
    await mira.page.getByText('Lime').first().waitFor();
    await go(mira, '/club/stations');
    await fill(mira, { Name: 'Warming cabinet' });
    await press(mira, 'Add it');
    await mira.page.getByRole('heading', { name: 'Warming cabinet' }).waitFor();

    await go(mira, '/club');
    await press(mira, 'Invite somebody');
    const link = await mira.page.locator('code').first().innerText();
    await mira.page.getByAltText('The link as a QR code').waitFor();

    const joss = await browser.open();
    await joss.page.goto(link);
    await fill(joss, { 'Your name': 'Joss', 'E-mail': 'joss@example.org', Password: password });
    await press(joss, 'Open an account');
    await joss.page.getByText('Brummelwick Honey House').first().waitFor();

    await bringIn(mira, 'Honey', 'Lime, July, pail 3', '25');
    await bringIn(mira, 'Seed', 'Fine seed, bought', '6');

    await go(mira, '/batches/new');
    await fill(mira, { Name: 'Lime creamed' });
    await mira.page.getByLabel('Lime, July, pail 3').first().check();
    await press(mira, 'New batch');
    for (const step of ['Load the cabinet', 'Take out: it is clear', 'Cool enough for seed']) {
      await doStep(mira, step);
    }
    await press(mira, 'Stir in the seed');
    await mira.page.getByLabel('Fine seed, bought').first().check();
    await press(mira, 'Stir in the seed');
    await mira.page.getByText('Seeded', { exact: true }).first().waitFor();
    await mira.page.getByRole('button', { name: 'Pot it' }).first().click();
    await fill(mira, { 'How many': '40', 'Put by as seed': '3' });
    await press(mira, 'Pot it');
    await mira.page.getByText('40 pots of 500 g').waitFor();

    await press(mira, 'Look: has it set?');
    await press(mira, 'Set');
    await press(mira, 'Smooth');
    await press(mira, 'File it');
    await mira.page.getByText('Set', { exact: true }).first().waitFor();

    await go(mira, '/seed');
    await mira.page.getByRole('link', { name: /Seed of Lime creamed/ }).click();
    await mira.page.getByText('10/11').or(mira.page.getByText(/90\.9/)).first().waitFor();
    await mira.page.getByLabel('To whom').selectOption({ label: 'Joss' });
    await mira.page.getByLabel('Mass, kg').first().fill('1');
    await press(mira, 'Lend some');
    await mira.page.getByText('Lent.').waitFor();

    await go(joss, '/');
    await joss.page.getByText('lent you seed').first().waitFor();

    await mira.page.getByText('Put a hold on it').first().click();
    await fill(mira, { 'What is wrong': 'It smells of vinegar' });
    await press(mira, 'Put a hold on it');
    await mira.page.getByText('On hold: not to be used').first().waitFor();
    await go(joss, '/seed');
    await joss.page.getByRole('link', { name: /⚠/ }).first().waitFor();

    await go(mira, '/setting-times');
    await mira.page
      .getByText(/1 of 1 batch/)
      .first()
      .waitFor();

    await go(mira, '/club/tokens');
    await fill(mira, { 'What it is for': 'logger' });
    await press(mira, 'New token');
    const token = await mira.page.locator('code').first().innerText();
    const answer = await fetch(`${service.url}/api/v1/session`, {
      headers: { Authorization: `Bearer ${token}` },
    });
    expect(((await answer.json()) as { name: string }).name).toBe('Mira');

    expect(mira.faults).toEqual([]);
    expect(joss.faults).toEqual([]);
  }, 400_000);
});

async function bringIn(visitor: Visitor, kind: string, name: string, massKg: string) {
  await go(visitor, '/lots/new');
  await press(visitor, kind);
  await fill(visitor, {
    Name: name,
    'Mass, kg': massKg,
    'Country of origin': 'AT',
    'Where from': 'Apiary by the mill',
    'Refractive index': '1.4925',
  });
  await press(visitor, 'Bring something in');
  await visitor.page.getByRole('heading', { name }).waitFor();
}

async function doStep(visitor: Visitor, step: string): Promise<void> {
  await press(visitor, step);
  await press(visitor, step);
  await visitor.page
    .getByRole('button', { name: step, exact: true })
    .waitFor({ state: 'detached' });
}
