import { describeInBrowser, useBrowser } from '../support/page';
import { useService } from '../support/service';

// The page's calculators, without an account, on a phone.

const service = useService();
const browser = useBrowser();

/** Of each: words of its answer, with what it asks at first. */
const answers: [kind: string, answer: RegExp][] = [
  ['seeding', /^2\.5.kg of seed into 25.kg of honey/],
  ['moisture', /^17\.4 % water/],
  ['warming', /^Clear after about \d/],
  ['cooling', /^Cool enough for seed \(24.°C at its warmest\) after about \d/],
  ['keeping', /^HMF rises by/],
  ['fermentation', /^Whether the honey keeps depends on its yeasts/],
  ['setting', /^It sets in time/],
  ['net-quantity', /^It fills 50 pots; nothing is left/],
];

describeInBrowser('the calculators', () => {
  test('answer everybody, each with a picture and its cautions', async () => {
    const { page, faults, context } = await browser.open();
    for (const [kind, answer] of answers) {
      await page.goto(`${service.url}/calculators/${kind}`, { waitUntil: 'networkidle' });
      await page.getByText(answer).first().waitFor();
      await page.locator('.asked').getByRole('img').first().waitFor();
      await page.locator('.asked').getByText('How, and by whose figures').waitFor();
      await page
        .locator('.asked')
        .getByText(/infants|estimates|local/)
        .first()
        .waitFor();
    }
    expect(faults).toEqual([]);
    await context.close();
  }, 200_000);

  test('show without a network what was reckoned before, and say that the rest needs it', async () => {
    const { page, context } = await browser.open();
    await page.goto(`${service.url}/calculators/seeding`, { waitUntil: 'networkidle' });
    await page.getByText(/^2\.5.kg of seed/).waitFor();
    await page.getByLabel('Honey, kg').fill('30');
    await page.getByText(/^3.kg of seed/).waitFor();

    await page.route('**/api/v1/calculations/**', (route) => route.abort());
    await page.reload();
    await page.getByText(/^2\.5.kg of seed/).waitFor();
    await page.getByLabel('Honey, kg').fill('30');
    await page.getByText(/^3.kg of seed/).waitFor();
    await page.getByLabel('Honey, kg').fill('31');

    await page.getByText(/^Reckoning needs the network/).waitFor();
    await context.close();
  }, 200_000);

  test('count pots that were weighed', async () => {
    const { page, context } = await browser.open();
    await page.goto(`${service.url}/calculators/net-quantity`, { waitUntil: 'networkidle' });

    await page.getByLabel('Weighed pots').fill('501 499,5 503\n484 469');

    // Of 500 g a pot may lack 15: 484 is short, 469 is not to be sold (Directive 76/211/EEC).
    await page
      .getByText(/The pots do not pass\. 5 weighed, 491\.3.g on average; 2 short, 1 not/)
      .waitFor();
    await context.close();
  }, 200_000);
});
