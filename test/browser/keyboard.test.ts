import { withAPassword } from '../support/account';
import { aKeyboard } from '../support/hands';
import { nameBehind, theJourney } from '../support/journey';
import { aSeededBatch, aSource, daysAgo } from '../support/lots';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// Whoever cannot use a pointer does the same job: every control is reached with Tab, the focus is seen on the way, and is never lost.

const service = useService();
const browser = useBrowser();

describeInBrowser('with the keyboard alone', () => {
  test('a club is founded, invites, plans, creams, lends, traces and learns', async () => {
    const mira = await browser.open({ width: 1280, height: 800 });
    const joss = await browser.open();
    const { token } = await theJourney(service.url, await aKeyboard(mira), await aKeyboard(joss));
    expect(await nameBehind(service.url, token)).toBe('Mira');
    expect([...mira.faults, ...joss.faults]).toEqual([]);
  }, 400_000);

  test('the focus goes to the heading of a new screen, and stays in its part when a form opens and closes', async () => {
    const club = await aClub(service);
    const { batchId } = await aSeededBatch(
      club.ada,
      club,
      await aSource(service, club.clubId),
      daysAgo(3),
    );
    const ada = await browser.open();
    await signIn(ada, service, await withAPassword(service, club.ada.personId));
    const keyboard = await aKeyboard(ada);
    await ada.page.goto(`${service.url}/`);

    await keyboard.follow('Skip to the content');
    expect(await focusOf(ada)).toBe('main');
    await keyboard.follow('Batches');
    await ada.page
      .getByRole('link', { name: /kg|Seeded/ })
      .first()
      .waitFor();
    expect(await focusOf(ada)).toBe('Batches');
    await ada.page.goto(`${service.url}/batches/${batchId}`);
    const part = 'What comes next';
    await keyboard.press('Look: has it set?');
    await ada.page.getByRole('button', { name: 'Thickening' }).waitFor();
    expect(await focusOf(ada)).toBe(part);
    await keyboard.press('Cancel');
    expect(await focusOf(ada)).toBe(part);
    expect(ada.faults).toEqual([]);
  }, 120_000);
});

/** What has the focus: the words of a heading, the name of a part, or what kind of element it is. */
function focusOf({ page }: Visitor): Promise<string> {
  return page.evaluate<string>(
    `(({ localName, textContent, ariaLabel }) => (/^h[1-6]$/.test(localName) ? textContent : (ariaLabel ?? localName)))(document.activeElement)`,
  );
}
