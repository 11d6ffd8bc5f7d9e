import { smallTargetsOn } from '../support/accessibility';
import { aLot, aSource } from '../support/lots';
import { describeInBrowser, useBrowser, type Visitor } from '../support/page';
import { aCabinet, aWish, hoursLater } from '../support/room';
import { somebody } from '../support/room-page';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// Honey that stands past the end of its booking finds another place.

const service = useService();
const browser = useBrowser();

const thisMinute = new Date(new Date().setUTCSeconds(0, 0));

let club: ClubWorld;
let coolRoom: string;
let cabinet: string;

beforeEach(async () => {
  club = await aClub(service);
  cabinet = await aCabinet(club, 2);
  const { body } = await club.steward
    .post(`${club.path}/stations`, {
      name: 'Cool room',
      placeLoadKg: 60,
      changeoverMinutes: 0,
      duties: [{ duty: 'cool', minC: 8, maxC: 16 }],
      places: 2,
    })
    .expect(201);
  coolRoom = String(body.id);
});

/** Two places in the cool room, past their end for an hour, with a batch of that member's on them. */
async function anOverstayOf(memberId: string): Promise<{ bookingId: string; batchId: string }> {
  const source = await aSource(service, club.clubId);
  const honey = await aLot(club.steward, club, source);
  await service.prisma.lot.updateMany({ where: { id: honey }, data: { holderId: memberId } });
  const { body: batch } = await club.steward
    .post(`${club.path}/batches`, {
      name: 'Late lime',
      memberId,
      honey: [{ lotId: honey, massKg: 20 }],
    })
    .expect(201);
  const wish = aWish(coolRoom, {
    duty: 'cool',
    minC: 10,
    maxC: 14,
    places: 2,
    startsAt: hoursLater(thisMinute, -240),
    endsAt: hoursLater(thisMinute, -1),
  });
  const { body } = await club.steward
    .post(`${club.path}/bookings`, { ...wish, memberId, batchId: batch.id })
    .expect(201);
  const bookingId = String(body.id);
  await service.prisma.booking.updateMany({
    where: { id: bookingId },
    data: { arrivedAt: hoursLater(thisMinute, -239) },
  });
  return { bookingId, batchId: String(batch.id) };
}

async function openRoom({ page }: Visitor): Promise<void> {
  await page.goto(`${service.url}/room`, { waitUntil: 'networkidle' });
}

/** The booking of the cabinet that was made, and nothing but it. */
async function madeInCabinet() {
  const made = await service.prisma.booking.findMany({
    where: { clubId: club.clubId, stationId: cabinet },
    include: { places: true },
  });
  expect(made).toHaveLength(1);
  return made[0]!;
}

describeInBrowser('honey past its time', () => {
  test('gets places elsewhere, and its holder then says that the old ones are clear', async () => {
    const ada = await somebody(service, browser, club, 'member');
    const { bookingId, batchId } = await anOverstayOf(ada.memberId);
    const { page } = ada.visitor;
    await openRoom(ada.visitor);
    await page.getByText('Your honey stands in Cool room, places 1, 2').waitFor();
    expect(await smallTargetsOn(page, '.rows-part')).toEqual([]);
    await page.getByRole('button', { name: /^Book in Cabinet from / }).click();

    // The form is filled in, and is where the person goes on.
    const heading = page.getByRole('heading', { name: 'Book places' });
    await heading.and(page.locator(':focus')).waitFor();
    expect(await page.getByLabel('Station').inputValue()).toBe(cabinet);
    expect(await page.getByLabel('Places', { exact: true }).inputValue()).toBe('2');
    const openedAt = new Date();
    await page.getByRole('button', { name: 'Book', exact: true }).click();
    await heading.waitFor({ state: 'detached' });

    const made = await madeInCabinet();
    expect(made).toMatchObject({
      memberId: ada.memberId,
      batchId,
      duty: 'cool',
      minDeciC: 100,
      maxDeciC: 140,
    });
    expect(made.places).toHaveLength(2);
    expect(made.startsAt.getTime()).toBeGreaterThan(openedAt.getTime());

    // The honey is carried over.
    await page.getByRole('button', { name: 'Places are clear' }).first().click();
    await page.getByText('Your honey stands in Cool room').waitFor({ state: 'detached' });
    const { clearedAt } = await service.prisma.booking.findFirstOrThrow({
      where: { id: bookingId },
    });
    expect(clearedAt).not.toBeNull();
    expect(ada.visitor.faults).toEqual([]);
  }, 200_000);

  test('of a member gets places elsewhere by a steward, in the name of its holder', async () => {
    const ada = await somebody(service, browser, club, 'member');
    const steward = await somebody(service, browser, club, 'steward', 1280);
    const { batchId } = await anOverstayOf(ada.memberId);
    const { page } = steward.visitor;
    await openRoom(steward.visitor);
    await page.getByText('Honey of others that stands past its time: 1').click();
    await page.getByText(`${ada.account.name}’s honey stands in Cool room`).waitFor();
    await page.getByRole('button', { name: /^Book in Cabinet from / }).click();
    await page.getByRole('button', { name: 'Book', exact: true }).click();
    await page.getByRole('heading', { name: 'Book places' }).waitFor({ state: 'detached' });

    expect(await madeInCabinet()).toMatchObject({ memberId: ada.memberId, batchId });
    expect(steward.visitor.faults).toEqual([]);
  }, 200_000);

  test('is offered other times when somebody was quicker', async () => {
    const ada = await somebody(service, browser, club, 'member');
    await anOverstayOf(ada.memberId);
    const { page } = ada.visitor;
    await openRoom(ada.visitor);
    await page.getByRole('button', { name: /^Book in Cabinet from / }).click();
    await page.getByRole('heading', { name: 'Book places' }).waitFor();
    await club.steward
      .post(
        `${club.path}/bookings`,
        aWish(cabinet, {
          duty: 'cool',
          minC: 10,
          maxC: 14,
          startsAt: thisMinute,
          endsAt: hoursLater(thisMinute, 48),
        }),
      )
      .expect(201);
    await page.getByRole('button', { name: 'Book', exact: true }).click();
    await page
      .getByRole('button', { name: /^Book from / })
      .first()
      .click();
    await page.getByRole('heading', { name: 'Book places' }).waitFor({ state: 'detached' });

    const { startsAt, batchId } = await service.prisma.booking.findFirstOrThrow({
      where: { clubId: club.clubId, stationId: cabinet, memberId: ada.memberId },
    });
    expect(startsAt.getTime()).toBeGreaterThanOrEqual(hoursLater(thisMinute, 48).getTime());
    expect(batchId).not.toBeNull();
    expect(ada.visitor.faults).toEqual([]);
  }, 200_000);
});
