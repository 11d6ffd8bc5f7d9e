import { smallTargetsOn, violationsOn } from '../support/accessibility';
import { aLot, aPlannedBatch, aSource, lotsOutOfBalance } from '../support/lots';
import { oneWaits, waitUntilSent, whoRead } from '../support/offline';
import { describeInBrowser, useBrowser, type Visitor } from '../support/page';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// Somebody stirs seed in where there is no network, and meanwhile the seed is put on hold. Nothing of it is lost, and nothing is done twice.

const service = useService();
const browser = useBrowser();

/** Seed was stirred in by Ada without a network, and a steward had put it on hold when the network came back. */
async function stirredInTooLate() {
  const club = await aClub(service);
  const source = await aSource(service, club.clubId);
  const { batchId, seedId } = await aPlannedBatch(club.ada, club, source);
  await club.ada.change(`${club.path}/lots/${seedId}`, { name: 'Fine old seed' });
  const otherId = await aLot(club.ada, club, source, { kind: 'seed', massKg: 5 });
  await club.ada.change(`${club.path}/lots/${otherId}`, { name: 'Tub by the door' });
  const ada = await whoRead(service, browser, club.ada, [`/batches/${batchId}`]);

  await ada.context.setOffline(true);
  await stirIn(ada, 'Fine old seed');
  await ada.page.getByText(oneWaits).waitFor();
  const { body } = await club.steward
    .post(`${club.path}/lots/${seedId}/holds`, { reason: 'Smells of vinegar' })
    .expect(201);
  await ada.context.setOffline(false);
  await waitUntilSent(ada);

  const refused = ada.page.getByRole('alert').filter({ hasText: 'Stir in the seed: Spring' });
  await refused.getByText(/“Fine old seed” is on hold .*Smells of vinegar/).waitFor();
  return { club, ada, refused, batchId, seedId, otherId, holdId: String(body.id) };
}

async function stirIn({ page }: Visitor, seed: string): Promise<void> {
  await page.getByRole('button', { name: 'Other step' }).click();
  await page.getByRole('button', { name: 'Stir in the seed' }).click();
  await page.getByRole('checkbox', { name: seed }).check();
  await page.getByRole('button', { name: 'Stir in the seed' }).click();
}

async function usedKg(club: ClubWorld, lotId: string): Promise<number> {
  const { body } = await club.ada.get(`${club.path}/lots/${lotId}`).expect(200);
  return (body as { usedMassKg: number }).usedMassKg;
}

async function stepsOf(club: ClubWorld, batchId: string): Promise<string[]> {
  const { body } = await club.ada.get(`${club.path}/batches/${batchId}`).expect(200);
  return (body as { steps: { kind: string }[] }).steps.map(({ kind }) => kind);
}

describeInBrowser('what was done without a network and refused when it was sent', () => {
  test('is there after a reload, and sent again once what stood in its way is gone', async () => {
    const { club, ada, refused, batchId, seedId, holdId } = await stirredInTooLate();
    const { page } = ada;
    expect(await smallTargetsOn(page)).toEqual([]);
    expect(await violationsOn(page)).toEqual([]);
    await page.reload();
    const answered = page.waitForResponse(/\/steps$/);
    await refused.getByRole('button', { name: 'Try again' }).click();
    expect((await answered).status()).toBe(409);
    await refused.getByText(/is on hold/).waitFor();
    expect(await stepsOf(club, batchId)).toEqual([]);

    await club.steward
      .post(`${club.path}/holds/${holdId}/release`, {
        because: 'It was the jar',
        evidence: 'Tasted by three',
      })
      .expect(200);
    await refused.getByRole('button', { name: 'Try again' }).click();
    await refused.waitFor({ state: 'detached' });
    await page.getByText('Seeded', { exact: true }).first().waitFor();

    expect(await stepsOf(club, batchId)).toEqual(['seeded']);
    expect(await usedKg(club, seedId)).toBe(2);
    await page.reload();
    await page.getByText('Seeded', { exact: true }).first().waitFor();
    expect(await refused.count()).toBe(0);
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect(ada.faults).toEqual([]);
  }, 200_000);

  test('is done in another way on its own screen, and then dropped', async () => {
    const { club, ada, refused, batchId, seedId, otherId } = await stirredInTooLate();
    const { page } = ada;
    await page.goto(`${service.url}/`);
    await refused.getByRole('link', { name: 'Look there' }).click();
    await page.getByRole('heading', { level: 1, name: 'Spring' }).waitFor();
    await stirIn(ada, 'Tub by the door');
    await page.getByText('Seeded', { exact: true }).first().waitFor();
    await refused.getByRole('button', { name: 'Drop it' }).click();
    await refused.waitFor({ state: 'detached' });
    await page.reload();
    await page.getByText('Seeded', { exact: true }).first().waitFor();

    expect(await refused.count()).toBe(0);
    expect(await stepsOf(club, batchId)).toEqual(['seeded']);
    expect([await usedKg(club, seedId), await usedKg(club, otherId)]).toEqual([0, 2]);
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect(ada.faults).toEqual([]);
  }, 200_000);
});
