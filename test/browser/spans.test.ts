import { smallTargetsOn } from '../support/accessibility';
import { everyDay, openOn } from '../support/opening';
import { describeInBrowser, useBrowser, type Visitor } from '../support/page';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { chooseTimes, somebody } from '../support/room-page';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// What a steward sets for a station and changes again: when it is closed, when it serves one duty alone; and a rule of the room that is set aside.

const service = useService();
const browser = useBrowser();

let club: ClubWorld;
let cabinet: string;

beforeEach(async () => {
  club = await aClub(service);
  cabinet = await aCabinet(club, 2);
});

async function go({ page }: Visitor, path: string): Promise<void> {
  await page.goto(`${service.url}${path}`, { waitUntil: 'networkidle' });
}

async function press({ page }: Visitor, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).click();
}

/** A booking to warm from three days ahead for a day, of that member: the instants. */
async function booked(memberId: string): Promise<{ id: string; startsAt: Date; endsAt: Date }> {
  const { body } = await club.steward
    .post(`${club.path}/bookings`, { ...aWish(cabinet), memberId })
    .expect(201);
  const startsAt = ahead(3);
  return { id: String(body.id), startsAt, endsAt: hoursLater(startsAt, 24) };
}

async function spans(kind: 'closures' | 'duty-windows'): Promise<Record<string, unknown>[]> {
  const { body } = await club.ada.get(`${club.path}/stations/${cabinet}/${kind}`).expect(200);
  return (body as { items: Record<string, unknown>[] }).items;
}

/** The part of the station's screen under that heading. */
function part({ page }: Visitor, title: string) {
  return page.locator('.sheet').filter({ has: page.getByRole('heading', { name: title }) });
}

describeInBrowser('a closure', () => {
  test('is moved where no booking is in the way, and taken away', async () => {
    const steward = await somebody(service, browser, club, 'steward');
    const ada = await somebody(service, browser, club, 'member');
    await booked(ada.memberId);
    await club.steward
      .post(`${club.path}/stations/${cabinet}/closures`, {
        startsAt: ahead(6).toISOString(),
        endsAt: ahead(7).toISOString(),
        reason: 'Cleaning',
      })
      .expect(201);
    const { page } = steward.visitor;
    await go(steward.visitor, `/club/stations/${cabinet}`);
    const closures = part(steward.visitor, 'Closures');
    await closures.getByText('Cleaning').waitFor();
    await press(steward.visitor, 'Change');
    await page.getByLabel('Reason').fill('The door is mended');
    await chooseTimes(steward.visitor, ahead(3, 12), ahead(4, 12));
    expect(await smallTargetsOn(page)).toEqual([]);
    await closures.getByRole('button', { name: 'Save' }).click();

    // It says whose booking is in the way, and what would work; what was typed is still there.
    const inTheWay = page.getByRole('region', { name: 'Bookings in the way' });
    await inTheWay.getByText(ada.account.name).waitFor();
    await inTheWay.getByText(/choose another time/).waitFor();
    expect(await page.getByLabel('Reason').inputValue()).toBe('The door is mended');
    expect(await spans('closures')).toEqual([expect.objectContaining({ reason: 'Cleaning' })]);

    await chooseTimes(steward.visitor, ahead(8), ahead(9));
    await closures.getByRole('button', { name: 'Save' }).click();
    await closures.getByText('The door is mended').waitFor();
    await inTheWay.waitFor({ state: 'detached' });
    expect(await spans('closures')).toEqual([
      expect.objectContaining({
        reason: 'The door is mended',
        startsAt: ahead(8).toISOString(),
        endsAt: ahead(9).toISOString(),
      }),
    ]);

    await press(steward.visitor, 'Remove');
    await closures.getByText('None ahead.').waitFor();
    expect(await spans('closures')).toEqual([]);
    expect(steward.visitor.faults).toEqual([]);
  }, 200_000);

  test('cancels the bookings in the way when that is what the steward chooses', async () => {
    const steward = await somebody(service, browser, club, 'steward');
    const ada = await somebody(service, browser, club, 'member');
    const { id } = await booked(ada.memberId);
    const { page } = steward.visitor;
    await go(steward.visitor, `/club/stations/${cabinet}`);
    await press(steward.visitor, 'Close it for a time');
    await chooseTimes(steward.visitor, ahead(3, 6), ahead(5, 10));
    await page.getByLabel('Reason').fill('The heater is broken');
    await press(steward.visitor, 'Close it');
    const consequence = page.getByRole('region', { name: 'What it would come to' });
    await consequence.getByText(`${ada.account.name}: moves to`).waitFor();
    expect(await smallTargetsOn(page)).toEqual([]);
    await press(steward.visitor, 'Close it, and cancel them all');
    await page.getByText(`${ada.account.name}: is cancelled`).waitFor();
    await press(steward.visitor, 'Understood');
    await part(steward.visitor, 'Closures').getByText('The heater is broken').waitFor();

    const { active } = await service.prisma.booking.findFirstOrThrow({ where: { id } });
    expect(active).toBe(false);
    await go(ada.visitor, '/club/news');
    await ada.visitor.page.getByText(/The heater is broken/).waitFor();
    expect([...steward.visitor.faults, ...ada.visitor.faults]).toEqual([]);
  }, 200_000);
});

describeInBrowser('a duty window', () => {
  test('is refused over a booking of another duty, made beside it, changed, and removed', async () => {
    const steward = await somebody(service, browser, club, 'steward');
    const ada = await somebody(service, browser, club, 'member');
    await booked(ada.memberId);
    const { page } = steward.visitor;
    await go(steward.visitor, `/club/stations/${cabinet}`);
    await press(steward.visitor, 'Keep it for one duty');
    await chooseTimes(steward.visitor, ahead(2), ahead(9));
    await page.getByLabel('Why').fill('Cool store for a week');
    expect(await smallTargetsOn(page)).toEqual([]);
    await press(steward.visitor, 'Keep it so');
    const inTheWay = page.getByRole('region', { name: 'Bookings in the way' });
    await inTheWay.getByText(ada.account.name).waitFor();
    expect(await spans('duty-windows')).toEqual([]);

    await chooseTimes(steward.visitor, ahead(6), ahead(9));
    await press(steward.visitor, 'Keep it so');
    const windows = part(steward.visitor, 'Duty windows');
    await windows.getByText('Only cooling').waitFor();
    await press(steward.visitor, 'Change');
    await press(steward.visitor, 'warming');
    await chooseTimes(steward.visitor, ahead(2), ahead(12));
    await page.getByLabel('Why').fill('Everybody warms');
    await press(steward.visitor, 'Keep it so');
    await windows.getByText('Only warming').waitFor();
    expect(await spans('duty-windows')).toEqual([
      expect.objectContaining({
        duty: 'warm',
        startsAt: ahead(2).toISOString(),
        endsAt: ahead(12).toISOString(),
        note: 'Everybody warms',
      }),
    ]);

    await press(steward.visitor, 'Remove');
    await windows.getByText('None: it serves each of its duties').waitFor();
    expect(await spans('duty-windows')).toEqual([]);
    expect(steward.visitor.faults).toEqual([]);
  }, 200_000);

  test('and a closure are read by a member, who is offered nothing to change', async () => {
    await club.steward
      .post(`${club.path}/stations/${cabinet}/duty-windows`, {
        duty: 'cool',
        startsAt: ahead(6).toISOString(),
        endsAt: ahead(9).toISOString(),
        note: 'Cool store',
      })
      .expect(201);
    const { visitor } = await somebody(service, browser, club, 'member');
    await go(visitor, `/club/stations/${cabinet}`);
    await part(visitor, 'Duty windows').getByText('Cool store', { exact: true }).waitFor();
    for (const name of ['Change', 'Remove', 'Keep it for one duty', 'Close it for a time']) {
      expect(await visitor.page.getByRole('button', { name, exact: true }).count()).toBe(0);
    }
    expect(visitor.faults).toEqual([]);
  }, 200_000);
});

describeInBrowser('a rule of the room', () => {
  /** Asks for two days of a place from an evening on, when the room is closed. */
  async function askForTheNight(visitor: Visitor): Promise<void> {
    await go(visitor, '/room');
    await press(visitor, 'Book places');
    await chooseTimes(visitor, ahead(3, 20), ahead(5, 20));
    await press(visitor, 'Book');
  }

  const hasBooked = ({ page }: Visitor) =>
    page.getByRole('heading', { name: 'Book places' }).waitFor({ state: 'detached' });

  test('stands for members, who are offered other times; a steward sets one after the other aside, which is in the history', async () => {
    await openOn(club, everyDay, 8 * 60, 12 * 60);
    await club.steward.change(club.path, { placeDaysAhead: 1 });
    const ada = await somebody(service, browser, club, 'member');
    await askForTheNight(ada.visitor);
    await ada.visitor.page.getByRole('alert').waitFor();
    expect(await ada.visitor.page.getByRole('checkbox').count()).toBe(0);

    const { account, memberId, visitor } = await somebody(service, browser, club, 'steward');
    const { page } = visitor;
    await askForTheNight(visitor);
    await page.getByText(/place-days are booked ahead/).waitFor();
    await page.getByLabel(/^Book it beyond the fair share/).check();
    await press(visitor, 'Book');
    await page.getByText('It starts when the room is closed.').waitFor();
    await page.getByText('These times would do:').waitFor();
    expect(await smallTargetsOn(page, 'form')).toEqual([]);
    await page.getByLabel(/^Book it though the room is closed/).check();
    await press(visitor, 'Book');
    await hasBooked(visitor);
    const { startsAt } = await service.prisma.booking.findFirstOrThrow({ where: { memberId } });
    expect(startsAt).toEqual(ahead(3, 20));

    await go(visitor, '/club/audit');
    const entry = page.getByRole('listitem').filter({ hasText: 'Booking rules set aside' });
    await entry.getByText('though the room is closed').waitFor();
    await entry.getByText('beyond the fair share').waitFor();
    await entry.getByText(account.name).waitFor();
    expect(await entry.count()).toBe(1);
    expect([...ada.visitor.faults, ...visitor.faults]).toEqual([]);
  }, 200_000);
});
