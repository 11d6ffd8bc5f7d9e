import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { dress } from '../../src/app';
import { readSettings } from '../../src/platform/settings';
import { anAccount } from '../support/account';
import { describeInBrowser, useBrowser } from '../support/page';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const empty = useService();
const service = useService();
const browser = useBrowser();

/** The same service as its demo would be, with that steward. */
async function asTheDemo(email: string, password: string): Promise<NestFastifyApplication> {
  const demo = {
    clubName: 'An invented club',
    password,
    accounts: [{ name: 'Mira', email, role: 'steward' as const }],
  };
  const app = await dress(service.database.url, {
    ...readSettings({ LOG_LEVEL: 'silent' }),
    demo,
  });
  await app.listen(0, '127.0.0.1');
  return app;
}

describeInBrowser('the door', () => {
  test('of an empty installation says so, and how to see the demo', async () => {
    const { page, faults } = await browser.open();
    await page.goto(`${empty.url}/`);
    await page.getByText('Nobody is here yet.').waitFor();
    await page.getByText('npm run demo').waitFor();
    await page.getByRole('button', { name: 'Open the first account' }).click();
    await page.getByLabel('Your name').waitFor();
    expect(await page.getByText('Try it with the demo club').count()).toBe(0);
    expect(faults).toEqual([]);
  }, 120_000);

  test('of the demo leads in with one tap', async () => {
    const club = await aClub(service);
    const { email, password, personId } = await anAccount(service);
    await service.prisma.member.create({
      data: { clubId: club.clubId, personId, role: 'steward' },
    });
    const demo = await asTheDemo(email, password);
    try {
      const { page, faults } = await browser.open();
      await page.goto(`${await demo.getUrl()}/`);
      await page.getByRole('button', { name: 'As Mira, who runs the room' }).click();
      await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor();
      expect(faults).toEqual([]);
    } finally {
      await demo.close();
    }
  }, 120_000);

  test('of a service that is in use offers neither', async () => {
    await anAccount(service);
    const { page } = await browser.open();
    await page.goto(`${service.url}/`, { waitUntil: 'networkidle' });
    await page.getByRole('button', { name: 'Sign in' }).waitFor();
    expect(await page.getByText(/demo/).count()).toBe(0);
    expect(await page.getByText('Nobody is here yet.').count()).toBe(0);
  }, 120_000);
});
