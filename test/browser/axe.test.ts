import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { anAccount } from '../support/account';
import { aFullClub } from '../support/full-club';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// Every screen, in light and dark, by the rules of axe-core for WCAG 2.2 at levels A and AA.

const axe = readFileSync(createRequire(__filename).resolve('axe-core/axe.min.js'), 'utf8');
const service = useService();
const browser = useBrowser();

const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

interface Violation {
  id: string;
  nodes: { html: string }[];
}

async function violationsOn({ page }: Visitor): Promise<string[]> {
  // Not as a script of the page's: its policy would refuse that.
  const found = await page.evaluate<{ violations: Violation[] }>(
    `${axe}; axe.run({ runOnly: ${JSON.stringify(rules)} })`,
  );
  return found.violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes
        .slice(0, 3)
        .map(({ html }) => html.slice(0, 160))
        .join(' | ')}`,
  );
}

async function screens(): Promise<{
  account: { email: string; password: string };
  paths: string[];
}> {
  const club = await aClub(service);
  const things = await aFullClub(service, club);
  const account = await anAccount(service);
  await service.prisma.member.create({
    data: { clubId: club.clubId, personId: account.personId, role: 'steward' },
  });
  const paths = [
    '/',
    '/room',
    '/room/plan',
    '/batches',
    '/batches/new',
    `/batches/${String(things['batches'])}`,
    '/seed',
    '/lots/new',
    `/lots/${String(things['lots'])}`,
    '/setting-times',
    '/calculators',
    '/calculators/moisture',
    '/calculators/warming',
    '/calculators/keeping',
    '/club',
    '/club/hours',
    '/club/sharing',
    '/club/stations',
    `/club/stations/${String(things['stations'])}`,
    '/club/labels',
    '/club/calendar',
    '/club/news',
    '/club/floral-sources',
    '/club/tokens',
    '/club/audit',
    '/account',
    '/nothing-here',
  ];
  return { account, paths };
}

describeInBrowser('every screen', () => {
  test.each(['light', 'dark'] as const)(
    'is open to everybody, in %s',
    async (colorScheme) => {
      const { account, paths } = await screens();
      const visitor = await browser.open({ colorScheme });
      await visitor.page.goto(`${service.url}/`);
      await visitor.page.getByRole('button', { name: 'Sign in' }).waitFor();
      expect(['the door', await violationsOn(visitor)]).toEqual(['the door', []]);

      await signIn(visitor, service, account);
      for (const path of paths.filter((one) => one !== '/nothing-here')) {
        await visitor.page.goto(`${service.url}${path}`, { waitUntil: 'networkidle' });
        await visitor.page.getByRole('heading', { level: 1 }).waitFor();
        expect([path, await violationsOn(visitor)]).toEqual([path, []]);
        const width = await visitor.page.evaluate('document.documentElement.scrollWidth');
        expect([path, width]).toEqual([path, 360]);
      }
      expect(visitor.faults).toEqual([]);
      await visitor.context.close();
    },
    600_000,
  );
});
