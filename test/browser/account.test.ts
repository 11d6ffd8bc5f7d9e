import { anAccount } from '../support/account';
import { smallTargetsOn } from '../support/accessibility';
import { describeInBrowser, signIn, useBrowser } from '../support/page';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// One's own account: how one is called, and whether news come by e-mail, too.

const service = useService();
const browser = useBrowser();

describeInBrowser('one’s own account', () => {
  test('keeps whether news come by e-mail, and the name, until one chooses otherwise', async () => {
    const club = await aClub(service);
    const account = await anAccount(service);
    await service.prisma.member.create({
      data: { clubId: club.clubId, personId: account.personId, role: 'member' },
    });
    const visitor = await browser.open();
    await signIn(visitor, service, account);
    const { page } = visitor;
    const mails = page.getByLabel('Send me by e-mail, too, what I am told under News');
    const save = page.getByRole('button', { name: 'Save' });
    const saved = page.getByText('Saved.');
    const onRecord = async () => {
      const { body } = await account.browser.get('/people/me').expect(200);
      return body as { name: string; mailNotices: boolean };
    };

    // From News, where one wonders about mails, a link leads to the account.
    await page.goto(`${service.url}/club/news`, { waitUntil: 'networkidle' });
    await page.getByRole('link', { name: 'News by e-mail, too: in your account' }).click();
    const before = (await onRecord()).mailNotices;
    expect(await mails.isChecked()).toBe(before);
    expect(await smallTargetsOn(page, 'form:has([autocomplete=name])')).toEqual([]);
    await mails.setChecked(!before);
    await page.getByLabel('Your name').fill('Ada by the mill');
    await save.click();
    await saved.waitFor();
    expect(await onRecord()).toMatchObject({ name: 'Ada by the mill', mailNotices: !before });

    await page.reload({ waitUntil: 'networkidle' });
    await page.getByRole('heading', { level: 1, name: 'Ada by the mill' }).waitFor();
    expect(await mails.isChecked()).toBe(!before);
    await mails.setChecked(before);
    await save.click();
    await saved.waitFor();
    // What is changed again is not saved yet.
    await mails.setChecked(!before);
    await saved.waitFor({ state: 'detached' });
    await page.reload({ waitUntil: 'networkidle' });
    expect(await mails.isChecked()).toBe(before);
    expect((await onRecord()).mailNotices).toBe(before);
    expect(visitor.faults).toEqual([]);
  }, 120_000);

  test('that was changed meanwhile in another browser loses nothing of it', async () => {
    const club = await aClub(service);
    const account = await anAccount(service);
    await service.prisma.member.create({
      data: { clubId: club.clubId, personId: account.personId, role: 'member' },
    });
    const visitor = await browser.open();
    await signIn(visitor, service, account);
    const { page } = visitor;
    await page.goto(`${service.url}/account`, { waitUntil: 'networkidle' });
    const mails = page.getByLabel('Send me by e-mail, too, what I am told under News');
    const wasOn = await mails.isChecked();
    await account.browser.change('/people/me', { name: 'Ada by the weir' });
    await mails.setChecked(!wasOn);
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Saved.').waitFor();

    await page.getByRole('heading', { level: 1, name: 'Ada by the weir' }).waitFor();
    expect(await page.getByLabel('Your name').inputValue()).toBe('Ada by the weir');
    expect(await mails.isChecked()).toBe(!wasOn);
    const { body } = await account.browser.get('/people/me').expect(200);
    expect(body).toMatchObject({ name: 'Ada by the weir', mailNotices: !wasOn });
    expect(visitor.faults).toEqual([]);
  }, 120_000);
});
