import { hashPassword } from '../../src/people/passwords';
import { aSeededBatch, aSource, daysAgo } from '../support/lots';
import { describeInBrowser, signIn, useBrowser } from '../support/page';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// In the honey house there is no network: what was read last is there, and what is done is sent later, once.

const service = useService();
const browser = useBrowser();

describeInBrowser('without a network', () => {
  test('a look is kept, the page opens again, and the look arrives once when the network is back', async () => {
    const club = await aClub(service);
    const source = await aSource(service, club.clubId);
    const { batchId } = await aSeededBatch(club.ada, club, source, daysAgo(3));
    const password = 'seven slow bees hum along';
    const { email } = await service.prisma.person.update({
      where: { id: club.ada.personId },
      data: { passwordHash: await hashPassword(password) },
    });
    const ada = await browser.open({ offline: true });
    await signIn(ada, service, { email, password });
    const { page, context } = ada;

    await page.goto(`${service.url}/`, { waitUntil: 'networkidle' });
    await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
    // Read again, so that the worker, which now stands between, has seen it.
    await page.goto(`${service.url}/`, { waitUntil: 'networkidle' });
    await page.goto(`${service.url}/batches/${batchId}`, { waitUntil: 'networkidle' });
    await page.getByRole('button', { name: 'Look: has it set?' }).waitFor();

    await context.setOffline(true);
    await page.reload();
    await page.getByRole('button', { name: 'Look: has it set?' }).click();
    await page.getByRole('button', { name: 'Thickening', exact: true }).click();
    await page.getByRole('button', { name: 'File it', exact: true }).click();
    await page.getByText('One thing you did waits for the network.').waitFor();
    await page.reload();
    await page.getByText('One thing you did waits for the network.').waitFor();
    expect(await looksAt(batchId)).toEqual([]);

    await context.setOffline(false);
    await page
      .getByText('One thing you did waits for the network.')
      .waitFor({ state: 'detached', timeout: 60_000 });
    await page.reload({ waitUntil: 'networkidle' });
    expect(await looksAt(batchId)).toEqual(['thickening']);
    expect(ada.faults).toEqual([]);
  }, 400_000);
});

async function looksAt(batchId: string): Promise<string[]> {
  const checks = await service.prisma.settingCheck.findMany({ where: { batchId } });
  return checks.map(({ state }) => state);
}
