import { describeInBrowser, useBrowser, type Visitor } from '../support/page';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { chooseTimes, clubClock, somebody as withBrowser } from '../support/room-page';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// What is offered about the room when it is full, closed, or kept for one duty; and the hours at which it is open.

const service = useService();
const browser = useBrowser();

let club: ClubWorld;
let cabinet: string;

beforeEach(async () => {
  club = await aClub(service);
  cabinet = await aCabinet(club, 2);
});

const somebody = (role: 'member' | 'steward', width?: number) =>
  withBrowser(service, browser, club, role, width);

async function go({ page }: Visitor, path: string): Promise<void> {
  await page.goto(`${service.url}${path}`, { waitUntil: 'networkidle' });
}

/** The day as the page writes it. */
function dayOf(at: Date): string {
  return at.toLocaleDateString('en-GB', {
    timeZone: 'Europe/Vienna',
    day: 'numeric',
    month: 'short',
  });
}

describeInBrowser('when the room is full', () => {
  test('a member waits in line, is offered the place that somebody frees, and takes it', async () => {
    const ada = await somebody('member');
    const ben = await somebody('member');
    const [startsAt, endsAt] = [ahead(3), hoursLater(ahead(3), 24)];
    const { body: taken } = await club.steward
      .post(`${club.path}/bookings`, { ...aWish(cabinet, { places: 2 }), memberId: ada.memberId })
      .expect(201);

    const { page } = ben.visitor;
    await go(ben.visitor, '/room');
    await page.getByRole('button', { name: 'Book places' }).click();
    await chooseTimes(ben.visitor, startsAt, endsAt);
    await page.getByRole('button', { name: 'Book', exact: true }).click();
    await page.getByText('These times would do:').waitFor();
    await page.getByRole('button', { name: 'Wait for places' }).click();
    await page.getByLabel('All over by').fill(clubClock(endsAt));
    await page.getByRole('button', { name: 'Wait for places' }).click();
    await page.getByText('You stand in line.').waitFor();
    const line = page.getByRole('listitem').filter({ hasText: `1. ${ben.account.name}` });
    await line.waitFor();

    // Ada gives her places up; the first in line is Ben.
    await go(ada.visitor, '/room');
    await ada.visitor.page
      .getByRole('button', { name: new RegExp(ada.account.name) })
      .first()
      .click();
    await ada.visitor.page.getByRole('button', { name: 'Cancel the booking' }).click();
    await ada.visitor.page
      .getByRole('button', { name: 'Cancel the booking' })
      .waitFor({ state: 'detached' });

    await go(ben.visitor, '/');
    await page.getByRole('heading', { name: 'Kept for you' }).waitFor();
    await page.getByText(/Take it by .*, or the next in line gets it\./).waitFor();
    await page.getByRole('button', { name: 'Take it' }).click();
    await page.getByRole('heading', { name: 'Kept for you' }).waitFor({ state: 'detached' });

    const booked = await service.prisma.booking.findMany({
      where: { clubId: club.clubId, active: true },
    });
    expect(booked).toEqual([
      expect.objectContaining({ memberId: ben.memberId, startsAt, endsAt, keptUntil: null }),
    ]);
    expect(booked[0]!.id).not.toBe(taken.id);
    expect([...ada.visitor.faults, ...ben.visitor.faults]).toEqual([]);
  }, 300_000);

  test('honey past its time is shown to its holder, who keeps the places for longer', async () => {
    const ada = await somebody('member');
    const minute = new Date(new Date().setUTCSeconds(0, 0));
    const { body } = await club.steward
      .post(`${club.path}/bookings`, {
        ...aWish(cabinet, {
          startsAt: hoursLater(minute, -48),
          endsAt: hoursLater(minute, -1),
        }),
        memberId: ada.memberId,
      })
      .expect(201);
    const arrivedAt = hoursLater(minute, -47);
    await service.prisma.booking.updateMany({ where: { id: body.id }, data: { arrivedAt } });

    const { page } = ada.visitor;
    await go(ada.visitor, '/room');
    await page.getByText('Your honey stands in Cabinet, place 1').waitFor();
    const until = hoursLater(minute, 24);
    await page.getByLabel('Keep the places until').fill(clubClock(until));
    await page.getByRole('button', { name: 'Keep them' }).click();
    await page.getByText('Your honey stands in Cabinet').waitFor({ state: 'detached' });

    const { endsAt } = await service.prisma.booking.findFirstOrThrow({ where: { id: body.id } });
    expect(endsAt).toEqual(until);
    expect(ada.visitor.faults).toEqual([]);
  }, 300_000);

  test('a steward frees the places of somebody who did not come, and that is told', async () => {
    const ada = await somebody('member');
    const steward = await somebody('steward', 1280);
    const minute = new Date(new Date().setUTCSeconds(0, 0));
    const { body } = await club.steward
      .post(`${club.path}/bookings`, {
        ...aWish(cabinet, {
          startsAt: hoursLater(minute, -6),
          endsAt: hoursLater(minute, 24),
        }),
        memberId: ada.memberId,
      })
      .expect(201);

    const { page } = steward.visitor;
    await go(steward.visitor, '/room');
    const noShows = page.getByText('Bookings of others to which nobody came yet: 1');
    await noShows.click();
    await page.getByRole('button', { name: 'Nobody came: free the places' }).click();
    await noShows.waitFor({ state: 'detached' });

    const { releasedAt } = await service.prisma.booking.findFirstOrThrow({
      where: { id: body.id },
    });
    expect(releasedAt).not.toBeNull();
    await go(ada.visitor, '/club/news');
    await ada.visitor.page.getByText('Nobody came').first().waitFor();
    expect(steward.visitor.faults).toEqual([]);
  }, 300_000);
});

describeInBrowser('a station', () => {
  test('its bookings are one stop of the Tab key, and the arrow keys go from one to the next', async () => {
    const steward = await somebody('steward', 1280);
    for (const day of [3, 5, 7]) {
      const startsAt = ahead(day);
      await club.steward
        .post(
          `${club.path}/bookings`,
          aWish(cabinet, { startsAt, endsAt: hoursLater(startsAt, 24) }),
        )
        .expect(201);
    }
    const { page } = steward.visitor;
    await go(steward.visitor, '/room');
    const cursor = page.locator('svg.station .block-cursor');
    const standsAt = (day: number) =>
      page.locator(`.block-cursor[aria-label*=" ${dayOf(ahead(day))}, "]:focus`).waitFor();
    await cursor.focus();
    await standsAt(3);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await standsAt(7);
    await page.keyboard.press('Home');
    await standsAt(3);
    await page.keyboard.press('End');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Tab');
    await standsAt(7);
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Move' }).waitFor();
    expect(steward.visitor.faults).toEqual([]);
  }, 300_000);

  test('is kept for one duty, which the drawing of the room tells; then it is not', async () => {
    const { visitor } = await somebody('steward', 1280);
    const { page } = visitor;
    await go(visitor, `/club/stations/${cabinet}`);
    await page.getByRole('button', { name: 'Keep it for one duty' }).click();
    await page.getByRole('button', { name: 'cooling' }).click();
    await chooseTimes(visitor, ahead(2), ahead(9));
    await page.getByLabel('Why').fill('Cool store for a week');
    await page.getByRole('button', { name: 'Keep it so' }).click();
    await page.getByText('Only cooling').waitFor();

    await go(visitor, '/room');
    await page.getByText(/Only cooling from .*: Cool store for a week/).waitFor();
    expect(await page.locator('svg.station title').allTextContents()).toContain('Only cooling');
    await page.getByRole('listitem').filter({ hasText: 'kept for one duty' }).waitFor();

    await go(visitor, `/club/stations/${cabinet}`);
    await page.getByRole('button', { name: 'Remove', exact: true }).click();
    await page.getByText('None: it serves each of its duties').waitFor();
    expect(await service.prisma.dutyWindow.count({ where: { clubId: club.clubId } })).toBe(0);
    expect(visitor.faults).toEqual([]);
  }, 300_000);

  test('is closed over a booking: what would become of it is told first, then it is moved and its holder told', async () => {
    const steward = await somebody('steward', 1280);
    const ada = await somebody('member');
    const { body: booked } = await club.steward
      .post(`${club.path}/bookings`, { ...aWish(cabinet), memberId: ada.memberId })
      .expect(201);

    const { page } = steward.visitor;
    await go(steward.visitor, `/club/stations/${cabinet}`);
    await page.getByRole('button', { name: 'Close it for a time' }).click();
    await chooseTimes(steward.visitor, ahead(3, 6), ahead(5, 10));
    await page.getByLabel('Reason').fill('The door is mended');
    await page.getByRole('button', { name: 'Close it', exact: true }).click();
    await page.getByText(new RegExp(`${ada.account.name}: moves to`)).waitFor();
    await page.getByText(`Told of it: ${ada.account.name}.`).waitFor();
    expect(await service.prisma.closure.count({ where: { clubId: club.clubId } })).toBe(0);
    await page.getByRole('button', { name: 'Close it, and move them so' }).click();
    await page.getByText('It is closed then.').waitFor();

    const { startsAt } = await service.prisma.booking.findFirstOrThrow({
      where: { id: booked.id },
    });
    expect(startsAt).toEqual(ahead(5, 10));
    await go(ada.visitor, '/');
    await ada.visitor.page.getByText('News: 1').click();
    await ada.visitor.page.getByText(/The door is mended/).waitFor();
    expect([...steward.visitor.faults, ...ada.visitor.faults]).toEqual([]);
  }, 300_000);

  test('gets more places and another name, and is drawn with them', async () => {
    const { visitor } = await somebody('steward', 1280);
    const { page } = visitor;
    await go(visitor, `/club/stations/${cabinet}`);
    await page.getByRole('button', { name: 'Change the station' }).click();
    await page.getByLabel('Name').fill('Big cabinet');
    await page.getByRole('textbox', { name: 'Places' }).fill('5');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('heading', { name: 'Big cabinet', level: 1 }).waitFor();
    await page.getByRole('img', { name: 'Nothing stands on its 5 places now' }).waitFor();
    const { body } = await club.ada.get(`${club.path}/stations/${cabinet}`).expect(200);
    expect(body).toMatchObject({ name: 'Big cabinet', places: 5, placeLoadKg: 30 });
    expect(visitor.faults).toEqual([]);
  }, 300_000);
});

describeInBrowser('the rules of the room', () => {
  test('a day with a break is saved and shown, to stewards and members', async () => {
    const steward = await somebody('steward');
    const ada = await somebody('member');
    const { page } = steward.visitor;
    await go(steward.visitor, '/club/hours');
    await page.getByRole('button', { name: 'Saturday: Open it' }).click();
    await page.getByLabel('Saturday: opens').fill('08:00');
    await page.getByLabel('Saturday: closes').fill('12:00');
    await page.getByRole('button', { name: 'Saturday: Open again after a break' }).click();
    await page.getByLabel('Saturday, 2: opens').fill('14:00');
    await page.getByLabel('Saturday, 2: closes').fill('18:30');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Saved.').waitFor();

    const { body } = await club.ada.get(`${club.path}/opening-hours`).expect(200);
    expect(body.hours).toEqual([
      { weekday: 6, opensMinute: 480, closesMinute: 720 },
      { weekday: 6, opensMinute: 840, closesMinute: 1110 },
    ]);
    await go(ada.visitor, '/club/hours');
    await ada.visitor.page.getByText('08:00 to 12:00, 14:00 to 18:30').waitFor();
    expect([...steward.visitor.faults, ...ada.visitor.faults]).toEqual([]);
  }, 300_000);

  test('a steward limits shares, words the labels, and makes and withdraws a calendar address', async () => {
    const { visitor } = await somebody('steward');
    const { page } = visitor;
    await go(visitor, '/club/sharing');
    await page.getByLabel('Place-days that a member may have booked ahead').fill('30');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Each member may have 30 place-days booked ahead.').waitFor();

    await go(visitor, '/club/labels');
    await page
      .getByLabel('Who answers for what is in the pot')
      .fill('Brummelwick Honey House\nMill Lane 3');
    await page.getByLabel('Best before, months from potting').fill('24');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Saved.').waitFor();
    const { body } = await club.ada.get(`${club.path}/label-settings`).expect(200);
    expect(body).toMatchObject({
      producer: 'Brummelwick Honey House\nMill Lane 3',
      bestBeforeMonths: 24,
      eMark: false,
    });

    await go(visitor, '/club/calendar');
    await page.getByLabel('What it is for').fill('Phone');
    await page.getByRole('button', { name: 'Make an address' }).click();
    const address = await page.locator('code').innerText();
    const calendar = await fetch(address);
    expect([calendar.status, await calendar.text()]).toEqual([
      200,
      expect.stringMatching(/^BEGIN:VCALENDAR/),
    ]);
    await page.getByRole('button', { name: 'Withdraw Phone' }).click();
    await page.getByText('None yet.').waitFor();
    expect((await fetch(address)).ok).toBe(false);
    expect(visitor.faults).toEqual([]);
  }, 300_000);
});

describeInBrowser('a new club', () => {
  test('is led through its first steps, which go when they are done', async () => {
    await service.prisma.stationDuty.deleteMany({ where: { clubId: club.clubId } });
    await service.prisma.place.deleteMany({ where: { clubId: club.clubId } });
    await service.prisma.station.deleteMany({ where: { clubId: club.clubId } });
    const { visitor } = await somebody('steward');
    const { page } = visitor;
    await go(visitor, '/');
    await page.getByRole('heading', { name: 'First steps' }).waitFor();
    await page.getByRole('link', { name: /Set up a station/ }).click();
    await page.getByLabel('Name').fill('Warming cabinet');
    await page.getByRole('button', { name: 'Add it' }).click();
    await page.getByRole('heading', { name: 'Warming cabinet' }).waitFor();
    await go(visitor, '/');
    await page.getByRole('link', { name: /Name a floral source/ }).click();
    await page.getByLabel('What the bees worked').fill('Lime');
    await page.getByRole('button', { name: 'Add it' }).click();
    await page.getByText('Lime').first().waitFor();

    await go(visitor, '/');
    await page.getByRole('heading', { name: 'Today' }).waitFor();
    expect(await page.getByRole('heading', { name: 'First steps' }).count()).toBe(0);
    expect(visitor.faults).toEqual([]);
  }, 300_000);
});
