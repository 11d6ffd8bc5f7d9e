import { anAccount } from '../support/account';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { aCabinet } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();
const browser = useBrowser();

async function aMemberAtTheDesk(club: ClubWorld): Promise<Visitor> {
  const account = await anAccount(service);
  await service.prisma.member.create({
    data: { clubId: club.clubId, personId: account.personId, role: 'member' },
  });
  const visitor = await browser.open({ width: 1280, height: 800 });
  await signIn(visitor, service, account);
  await visitor.page.goto(`${service.url}/room`, { waitUntil: 'networkidle' });
  await visitor.page.getByRole('button', { name: 'Book places' }).click();
  await visitor.page.getByLabel('Places', { exact: true }).fill('1');
  return visitor;
}

describeInBrowser('the last place', () => {
  test('goes to one of two who press at once; the other is offered times, and takes one with one tap', async () => {
    const club = await aClub(service);
    await aCabinet(club, 1);
    const both = await Promise.all([aMemberAtTheDesk(club), aMemberAtTheDesk(club)]);

    await Promise.all(
      both.map(({ page }) => page.getByRole('button', { name: 'Book', exact: true }).click()),
    );
    const outcomes = await Promise.all(
      both.map(async ({ page }) => {
        const refused = page.getByText('These times would do:');
        const booked = page.getByLabel('Places', { exact: true });
        await Promise.race([refused.waitFor(), booked.waitFor({ state: 'detached' })]);
        return refused.isVisible();
      }),
    );

    expect([...outcomes].sort()).toEqual([false, true]);
    const { page: second } = both[outcomes.indexOf(true)]!;
    await second
      .getByRole('button', { name: /^Book from / })
      .first()
      .click();
    await second.getByLabel('Places', { exact: true }).waitFor({ state: 'detached' });
    const booked = await service.prisma.booking.count({ where: { clubId: club.clubId } });
    expect(booked).toBe(2);
    expect(both.flatMap(({ faults }) => faults)).toEqual([]);
  }, 300_000);
});
