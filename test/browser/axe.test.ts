import type { Page } from 'playwright-core';
import { anAccount, withAPassword } from '../support/account';
import { overhangOf, smallTargetsOn, violationsOn } from '../support/accessibility';
import { aFullClub } from '../support/full-club';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// Every screen, with everything on it unfolded, on a phone, a tablet and a desk, in light and dark, by the rules of axe-core for WCAG 2.2 at
// levels A and AA; what is done with sticky hands is large enough for them; nothing breaks the page's own policy or asks another site.

const service = useService();
const browser = useBrowser();

const sizes = [
  { width: 360, height: 740 },
  { width: 768, height: 1024 },
  { width: 1280, height: 800 },
];

async function screens(): Promise<{
  account: { email: string; password: string };
  paths: string[];
}> {
  const club = await aClub(service);
  const things = await aFullClub(service, club);
  // Ada, whose things these are, sees what stewards see, too.
  await service.prisma.member.update({
    where: { clubId_id: { clubId: club.clubId, id: club.ada.memberId } },
    data: { role: 'steward' },
  });
  const account = await withAPassword(service, club.ada.personId);
  const paths = [
    '/',
    '/room',
    '/room/plan',
    '/batches',
    '/batches/new',
    `/batches/${String(things['batches'])}`,
    '/seed',
    '/seed/fits',
    '/seed/loans',
    '/seed/holds',
    '/lots/new',
    `/lots/${String(things['lots'])}`,
    `/lots/${String(things['lots'])}/recall`,
    '/setting-times',
    '/calculators',
    '/calculators/moisture',
    '/calculators/warming',
    '/calculators/cooling',
    '/calculators/keeping',
    '/calculators/fermentation',
    '/calculators/setting',
    '/calculators/net-quantity',
    '/club',
    '/club/hours',
    '/club/sharing',
    '/club/stations',
    `/club/stations/${String(things['stations'])}`,
    '/club/floral-sources',
    '/club/probes',
    `/probes/${String(things['probes'])}`,
    '/club/labels',
    '/club/calendar',
    '/club/news',
    '/club/tokens',
    '/club/audit',
    '/account',
    '/room/nothing-here',
  ];
  return { account, paths };
}

/** What is opened on a screen: another screen, that has no address. */
function opened(paths: string[]): Opened[] {
  const batch = paths.find((path) => /^\/batches\/[^/]{36}$/.test(path)) ?? '';
  const press = (page: Page, name: string) =>
    page.getByRole('button', { name, exact: true }).first().click();
  return [
    {
      name: 'a task of Today',
      path: '/',
      open: async (page) => {
        await page.getByText('The whole room', { exact: true }).click();
        await page.locator('.task button:enabled').first().click();
      },
      isForStickyHands: true,
    },
    {
      name: 'the form for a look',
      path: batch,
      open: async (page) => {
        await press(page, 'Look: has it set?');
        await press(page, 'Set');
      },
      isForStickyHands: true,
    },
    {
      name: 'the form for potting',
      path: batch,
      open: (page) => press(page, 'Pot it'),
      isForStickyHands: true,
    },
    { name: 'other steps', path: batch, open: (page) => press(page, 'Other step') },
    { name: 'striking out a look', path: batch, open: (page) => press(page, 'Strike out') },
    {
      name: 'a refused booking',
      path: '/room',
      open: async (page) => {
        await press(page, 'Book places');
        await page.getByLabel('Places', { exact: true }).fill('99');
        await press(page, 'Book');
        await page.getByRole('alert').waitFor();
      },
    },
    {
      name: 'a booking to be moved',
      path: '/room',
      open: async (page) => {
        await page.locator('details .plain-button').first().click();
        await press(page, 'Move it');
      },
    },
    {
      name: 'an invitation',
      path: '/club',
      open: async (page) => {
        await press(page, 'Invite somebody');
        await page.getByAltText('The link as a QR code').waitFor();
      },
    },
    {
      name: 'a new token',
      path: '/club/tokens',
      open: async (page) => {
        await page.getByLabel('What it is for').fill('logger');
        await press(page, 'New token');
        await page.locator('code').first().waitFor();
      },
    },
  ];
}

interface Opened {
  name: string;
  path: string;
  open: (page: Page) => Promise<void>;
  isForStickyHands?: boolean;
}

async function arrive({ page }: Visitor, path: string): Promise<void> {
  await page.goto(`${service.url}${path}`, { waitUntil: 'networkidle' });
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.evaluate(`document.querySelectorAll('details').forEach((one) => (one.open = true))`);
}

/** What is wrong with what is shown now, at every size; in the dark only colours differ. */
async function faultsOf({ page }: Visitor, isForStickyHands = false): Promise<string[]> {
  const found: string[] = [];
  // Colours that are on their way to others have no contrast of their own.
  await page.emulateMedia({ reducedMotion: 'reduce' });
  for (const size of sizes) {
    await page.setViewportSize(size);
    await page.emulateMedia({ colorScheme: 'light' });
    const overhang = await overhangOf(page);
    const faults = [
      ...(overhang > 0 ? [`${overhang} px wider than the window`] : []),
      ...(await violationsOn(page)),
      ...(isForStickyHands ? await smallTargetsOn(page) : []),
    ];
    await page.emulateMedia({ colorScheme: 'dark' });
    const inTheDark = await violationsOn(page, 'contrast');
    found.push(
      ...faults.map((fault) => `${size.width}: ${fault}`),
      ...inTheDark.map((fault) => `${size.width}, dark: ${fault}`),
    );
  }
  return found;
}

describeInBrowser('every screen', () => {
  test('is open to everybody', async () => {
    const { account, paths } = await screens();
    const found: Record<string, string[]> = {};
    const visitor = await browser.open();
    const { page } = visitor;
    await arrive(visitor, '/');
    found['the door'] = await faultsOf(visitor);
    await page.getByRole('button', { name: 'I have none yet' }).click();
    found['a new account'] = await faultsOf(visitor);
    const stranger = await anAccount(service);
    await signIn(visitor, service, stranger);
    await arrive(visitor, '/');
    found['a new club'] = await faultsOf(visitor);

    await signIn(visitor, service, account);
    for (const path of paths) {
      await arrive(visitor, path);
      found[path] = await faultsOf(visitor, path === '/');
    }
    for (const { name, path, open, isForStickyHands } of opened(paths)) {
      await page.setViewportSize(sizes[0]!);
      await arrive(visitor, path);
      await open(page);
      found[name] = await faultsOf(visitor, isForStickyHands);
    }
    const wrong = Object.entries(found).filter(([, faults]) => faults.length > 0);
    expect(Object.fromEntries(wrong)).toEqual({});
    expect(visitor.faults).toEqual([]);
  }, 600_000);

  test('comes with a policy that lets no script in that is not the page’s own', async () => {
    const answer = await fetch(`${service.url}/`);
    const policy = answer.headers.get('content-security-policy') ?? '';
    const scripts = policy.split(';').find((one) => one.trim().startsWith('script-src '));
    expect(scripts?.trim()).toBe("script-src 'self'");
  });
});
