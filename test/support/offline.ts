import { withAPassword } from './account';
import { signIn, type useBrowser, type Visitor } from './page';
import type { Service } from './service';
import type { Actor } from './world';

export const oneWaits = 'One thing you did waits for the network.';

export async function waitUntilSent({ page }: Visitor): Promise<void> {
  await page.getByText(oneWaits).waitFor({ state: 'detached', timeout: 60_000 });
}

/** Somebody whose phone keeps the page, and who has read Today and those addresses. */
export async function whoRead(
  service: Service,
  browser: ReturnType<typeof useBrowser>,
  { personId }: Actor,
  addresses: string[],
): Promise<Visitor> {
  const visitor = await browser.open({ offline: true });
  await signIn(visitor, service, await withAPassword(service, personId));
  const { page } = visitor;
  await page.goto(`${service.url}/`, { waitUntil: 'networkidle' });
  await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
  // Read again, so that the worker, which now stands between, has seen it.
  for (const address of ['/', ...addresses]) {
    await page.goto(`${service.url}${address}`, { waitUntil: 'networkidle' });
  }
  return visitor;
}
