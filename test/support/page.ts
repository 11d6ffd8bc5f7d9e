import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';
import type { Service } from './service';

/** Where Chromium is: Debian's place unless told otherwise. */
const program = process.env['CHROMIUM'] ?? '/usr/bin/chromium';

const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Tests of the page need a real browser; without one they are skipped, and say so. */
export const describeInBrowser = existsSync(program)
  ? describe
  : (name: string, tests: () => void) =>
      describe.skip(`${name} (no Chromium at ${program}: set CHROMIUM)`, tests);

/** One browser for the tests of a file. Read its members inside tests only. */
export function useBrowser(): { open: (options?: Options) => Promise<Visitor> } {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: program, args: quiet });
  });
  // Before the service of the file stops: it waits for whoever still asks something.
  afterEach(() => Promise.all(browser.contexts().map((context) => context.close())));
  afterAll(() => browser.close());
  return { open: (options) => visit(browser, options) };
}

interface Options {
  width?: number;
  height?: number;
  colorScheme?: 'light' | 'dark';
  /** Whether the page may keep itself for use without a network. */
  offline?: boolean;
}

/** Somebody with a browser of their own. */
export interface Visitor {
  context: BrowserContext;
  page: Page;
  /** What went wrong in the page since the visit began. */
  faults: string[];
}

async function visit(
  browser: Browser,
  { width = 360, height = 740, colorScheme = 'light', offline = false }: Options = {},
): Promise<Visitor> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme,
    serviceWorkers: offline ? 'allow' : 'block',
    locale: 'en-GB',
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    // That a request failed is told by the browser itself; what the page makes of it is for each test to see.
    const isTheBrowsers = message.text().startsWith('Failed to load resource');
    if (message.type() === 'error' && !isTheBrowsers) faults.push(message.text());
  });
  page.on('request', (request) => {
    const { hostname, protocol } = new URL(request.url());
    if (protocol.startsWith('http') && hostname !== '127.0.0.1') {
      faults.push(`It asked another site: ${request.url()}`);
    }
  });
  page.setDefaultTimeout(30_000);
  return { context, page, faults };
}

/** Signs somebody in without filling the form. */
export async function signIn(
  { context }: Visitor,
  service: Service,
  { email, password }: { email: string; password: string },
): Promise<void> {
  const answer = await context.request.post(`${service.url}/api/v1/session`, {
    data: { email, password },
    headers: { Origin: service.url },
  });
  if (!answer.ok()) throw new Error(`Signing in answered ${answer.status()}.`);
}
