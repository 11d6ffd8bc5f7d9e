import { aPointer } from '../support/hands';
import { nameBehind, theJourney } from '../support/journey';
import { describeInBrowser, useBrowser } from '../support/page';
import { useService } from '../support/service';

// The whole job in a real browser, on a phone's screen.

const service = useService();
const browser = useBrowser();

describeInBrowser('a club', () => {
  test('is founded, invites, plans, creams, lends, traces and learns', async () => {
    const mira = await browser.open();
    const joss = await browser.open();
    const { token } = await theJourney(service.url, aPointer(mira), aPointer(joss));
    expect(await nameBehind(service.url, token)).toBe('Mira');
    expect([...mira.faults, ...joss.faults]).toEqual([]);
  }, 400_000);
});
