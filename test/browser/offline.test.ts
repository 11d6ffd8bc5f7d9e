import { aCabinet, aWish, hoursLater } from '../support/room';
import { withAPassword } from '../support/account';
import { aPlannedBatch, aSeededBatch, aSource, daysAgo } from '../support/lots';
import { oneWaits, waitUntilSent, whoRead } from '../support/offline';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// In the honey house there is no network: what was read last is there, and what is done is sent later, once.

const service = useService();
const browser = useBrowser();

async function look({ page }: Visitor, state: string): Promise<void> {
  await page.getByRole('button', { name: 'Look: has it set?' }).click();
  await page.getByRole('button', { name: state, exact: true }).click();
  await page.getByRole('button', { name: 'File it', exact: true }).click();
}

async function aSetter(): Promise<{ club: ClubWorld; batchId: string }> {
  const club = await aClub(service);
  const source = await aSource(service, club.clubId);
  const { batchId } = await aSeededBatch(club.ada, club, source, daysAgo(3));
  return { club, batchId };
}

describeInBrowser('without a network', () => {
  test('a look is kept, the page opens again, and the look arrives once when the network is back', async () => {
    const { club, batchId } = await aSetter();
    const ada = await whoRead(service, browser, club.ada, [
      '/batches',
      '/calculators/moisture',
      `/batches/${batchId}`,
    ]);
    const { page, context } = ada;

    await context.setOffline(true);
    await page.reload();
    await look(ada, 'Thickening');
    await page.getByText(oneWaits).waitFor();
    await page.reload();
    await page.getByText(oneWaits).waitFor();
    expect(await looksAt(batchId)).toEqual([]);

    for (const [link, heading] of [
      ['Today', 'Today'],
      ['Batches', 'Batches'],
      ['Reckon', 'Reckon'],
    ] as const) {
      await page.getByRole('link', { name: link, exact: true }).last().click();
      await page.getByRole('heading', { level: 1, name: heading }).waitFor();
      if (link === 'Batches') await page.getByRole('link', { name: /Seeded/ }).waitFor();
    }

    await context.setOffline(false);
    await waitUntilSent(ada);
    expect(await looksAt(batchId)).toEqual(['thickening']);
    expect(ada.faults).toEqual([]);
  }, 400_000);

  test('a look that Today asks for is filed from Today alone: nobody has opened the batch before', async () => {
    const club = await aClub(service);
    const source = await aSource(service, club.clubId);
    const { batchId } = await aSeededBatch(club.ada, club, source, daysAgo(8));
    const ada = await whoRead(service, browser, club.ada, []);
    const { page, context } = ada;

    await context.setOffline(true);
    await page.reload();
    await page.getByRole('button', { name: 'Look', exact: true }).click();
    await page.getByRole('button', { name: 'Thickening', exact: true }).click();
    await page.getByRole('button', { name: 'File it', exact: true }).click();
    await page.getByText(oneWaits).waitFor();

    await context.setOffline(false);
    await waitUntilSent(ada);
    expect(await looksAt(batchId)).toEqual(['thickening']);
    expect(ada.faults).toEqual([]);
  }, 200_000);

  test.each(['before the service had it', 'after the service had it'])(
    'a look whose request is cut %s has one effect',
    async (when) => {
      const { club, batchId } = await aSetter();
      const ada = await browser.open();
      await signIn(ada, service, await withAPassword(service, club.ada.personId));
      const { page } = ada;
      await page.goto(`${service.url}/batches/${batchId}`, { waitUntil: 'networkidle' });
      await page.route('**/setting-checks', async (route) => {
        if (when.startsWith('after')) await route.fetch();
        await route.abort('connectionreset');
      });
      await look(ada, 'Thickening');
      await page.getByText(oneWaits).waitFor();
      expect(await looksAt(batchId)).toEqual(when.startsWith('after') ? ['thickening'] : []);

      await page.unroute('**/setting-checks');
      await page.evaluate("dispatchEvent(new Event('online'))");
      await waitUntilSent(ada);
      expect(await looksAt(batchId)).toEqual(['thickening']);
      expect(ada.faults).toEqual([]);
    },
    120_000,
  );

  test('what cannot be done any more when the network is back is shown with the service’s words', async () => {
    const club = await aClub(service);
    const source = await aSource(service, club.clubId);
    const { batchId } = await aPlannedBatch(club.ada, club, source);
    const ada = await browser.open();
    await signIn(ada, service, await withAPassword(service, club.ada.personId));
    const { page, context } = ada;
    await page.goto(`${service.url}/batches/${batchId}`, { waitUntil: 'networkidle' });

    await context.setOffline(true);
    await page.getByRole('button', { name: 'Load the cabinet', exact: true }).click();
    await page.getByRole('button', { name: 'Load the cabinet', exact: true }).click();
    await page.getByText(oneWaits).waitFor();
    // Meanwhile a steward gives the batch up.
    await club.steward
      .post(`${club.path}/batches/${batchId}/steps`, {
        kind: 'abandoned',
        at: new Date().toISOString(),
      })
      .expect(201);

    await context.setOffline(false);
    const refused = page.getByRole('alert').filter({ hasText: 'Load the cabinet' });
    await refused.getByText('the service could not take it').waitFor();
    await page.reload();
    await refused.getByRole('button', { name: 'Drop it' }).click();
    await refused.waitFor({ state: 'detached' });
    expect(ada.faults).toEqual([]);
  }, 120_000);

  test('places that another has cleared and booked meanwhile: the answer names what would work', async () => {
    const club = await aClub(service);
    const station = await aCabinet(club, 1);
    const ada = await browser.open();
    await signIn(ada, service, await withAPassword(service, club.ada.personId));
    const { page, context } = ada;
    await page.goto(`${service.url}/room`, { waitUntil: 'networkidle' });
    await page.getByRole('button', { name: 'Book places' }).click();
    await page.getByLabel('Places', { exact: true }).fill('1');
    await context.setOffline(true);
    await page.getByRole('button', { name: 'Book', exact: true }).click();
    await page.getByText('The service was not reached.').first().waitFor();
    // The form is as it was filled.
    expect(await page.getByLabel('Places', { exact: true }).inputValue()).toBe('1');
    // The form begins with the next full hour, for two days.
    const hourMs = 3_600_000;
    const startsAt = new Date(Math.ceil(Date.now() / hourMs) * hourMs);
    await club.ben
      .post(`${club.path}/bookings`, aWish(station, { startsAt, endsAt: hoursLater(startsAt, 30) }))
      .expect(201);

    await context.setOffline(false);
    await page.getByRole('button', { name: 'Book', exact: true }).click();
    await page
      .getByRole('button', { name: /^Book from / })
      .first()
      .click();
    await page.getByLabel('Places', { exact: true }).waitFor({ state: 'detached' });
    expect(await service.prisma.booking.count({ where: { clubId: club.clubId } })).toBe(2);
    expect(ada.faults).toEqual([]);
  }, 120_000);
});

async function looksAt(batchId: string): Promise<string[]> {
  const checks = await service.prisma.settingCheck.findMany({ where: { batchId } });
  return checks.map(({ state }) => state);
}
