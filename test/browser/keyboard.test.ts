import { Temporal } from '@js-temporal/polyfill';
import { withAPassword } from '../support/account';
import { aKeyboard, tabTo } from '../support/hands';
import { nameBehind, theJourney } from '../support/journey';
import { aSeededBatch, aSource, daysAgo } from '../support/lots';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { aCabinet, aWish } from '../support/room';
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

  test('places are booked: a year is typed, and a time that is offered instead is taken', async () => {
    const club = await aClub(service);
    const cabinet = await aCabinet(club, 2);
    const ada = await browser.open();
    await signIn(ada, service, await withAPassword(service, club.ada.personId));
    const keyboard = await aKeyboard(ada);
    await ada.page.goto(`${service.url}/room`);

    await keyboard.press('Book places');
    await keyboard.press('cooling');
    await keyboard.press('warming');
    await keyboard.fill({ 'From, °C': '40', 'To, °C': '45', Places: '2' });
    const startsAt = await fourYearsLater(ada, /^From\s*\*?$/);
    const endsAt = await fourYearsLater(ada, /^Until\s*\*?$/);
    await club.ben
      .post(`${club.path}/bookings`, aWish(cabinet, { startsAt, endsAt, places: 1 }))
      .expect(201);
    await keyboard.press('Book');
    await ada.page.getByText('These times would do:').waitFor();
    await keyboard.press(/^Book from /);
    await ada.page.getByRole('heading', { name: 'Book places' }).waitFor({ state: 'detached' });
    expect(await focusOf(ada)).toBe('The room');

    const { memberId } = club.ada;
    const made = await service.prisma.booking.findMany({
      where: { memberId },
      include: { places: true },
    });
    expect(made).toEqual([
      expect.objectContaining({ duty: 'warm', minDeciC: 400, maxDeciC: 450, startsAt: endsAt }),
    ]);
    expect(made[0]!.places).toHaveLength(2);
    expect(ada.faults).toEqual([]);
  }, 120_000);

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

/** Types another year into a field of a date and a time, one that has the same day also where it is a leap day: the instant that it then stands for. */
async function fourYearsLater({ page }: Visitor, label: RegExp): Promise<Date> {
  const field = page.getByLabel(label);
  const before = await field.inputValue();
  const year = Number(before.slice(0, 4)) + 4;
  await tabTo(page, field);
  // Day or month come first, the other next: the year is the third part.
  for (let part = 0; part < 6; part++) await page.keyboard.press('ArrowLeft');
  for (let part = 0; part < 2; part++) await page.keyboard.press('ArrowRight');
  await page.keyboard.type(String(year));
  const after = await field.inputValue();
  expect(after).toBe(`${year}${before.slice(4)}`);
  const local = Temporal.PlainDateTime.from(after).toZonedDateTime('Europe/Vienna');
  return new Date(local.epochMilliseconds);
}

/** What has the focus: the words of a heading, the name of a part, or what kind of element it is. */
function focusOf({ page }: Visitor): Promise<string> {
  return page.evaluate<string>(
    `(({ localName, textContent, ariaLabel }) => (/^h[1-6]$/.test(localName) ? textContent : (ariaLabel ?? localName)))(document.activeElement)`,
  );
}
