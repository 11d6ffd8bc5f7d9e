import { warmPails } from '../../src/core/honey/warm-pails';
import { usualPail } from '../../src/reckonings/usual-pail';
import { anAccount } from '../support/account';
import { aLot, aSource } from '../support/lots';
import { describeInBrowser, signIn, useBrowser, type Visitor } from '../support/page';
import { aCabinet, bookWarming } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// A batch's page and a probe's, on a phone.

const service = useService();
const browser = useBrowser();

const hour = 60;

/** Bookings begin with a whole minute. */
const wholeMinute = Math.floor(Date.now() / 60_000) * 60_000;

function minutesAgo(minutes: number): string {
  return new Date(wholeMinute - minutes * 60_000).toISOString();
}

/** A steward's phone, and a batch of 25 kg that another member planned. */
async function aBatchOnThePhone() {
  const club = await aClub(service);
  const { ada, path, clubId } = club;
  const account = await anAccount(service);
  await service.prisma.member.create({
    data: { clubId, personId: account.personId, role: 'steward' },
  });
  const source = await aSource(service, clubId, 'Lime');
  const honey = await aLot(ada, club, source);
  const seed = await aLot(ada, club, source, { kind: 'seed', massKg: 5 });
  const { body } = await ada
    .post(`${path}/batches`, { name: 'Lime creamed', honey: [{ lotId: honey, massKg: 25 }] })
    .expect(201);
  const batchId = String(body.id);
  const step = (kind: string, ago: number, more: object = {}) =>
    ada
      .post(`${path}/batches/${batchId}/steps`, { kind, at: minutesAgo(ago), ...more })
      .expect(201);
  const visitor = await browser.open();
  await signIn(visitor, service, account);
  return { ...club, club, batchId, seed, step, visitor };
}

async function go({ page }: Visitor, path: string): Promise<void> {
  await page.goto(`${service.url}${path}`, { waitUntil: 'networkidle' });
}

/** Warmed for two days by a booking, and cooling for one. */
const loadedAgo = 72 * hour;
const outAgo = 24 * hour;

/** A pail's core, every ten minutes: a degree an hour up from 12 °C to 43, then a degree an hour down. */
function coreReadings(): { at: string; temperatureC: number }[] {
  return Array.from({ length: loadedAgo / 10 }, (_, index) => {
    const hours = index / 6;
    const temperatureC = hours < 48 ? Math.min(43, 12 + hours) : 43 - (hours - 48);
    return {
      at: minutesAgo(loadedAgo - index * 10),
      temperatureC: Number(temperatureC.toFixed(1)),
    };
  });
}

type World = Awaited<ReturnType<typeof aBatchOnThePhone>>;

async function bookItsWarming({ club, ada, batchId }: World): Promise<void> {
  const stationId = await aCabinet(club);
  await bookWarming(club, {
    stationId,
    memberId: ada.memberId,
    batchId,
    startsAt: minutesAgo(loadedAgo),
    endsAt: minutesAgo(outAgo),
  });
}

async function logCore(
  { ada, path, batchId }: World,
  readings: { at: string; temperatureC: number }[],
): Promise<void> {
  const probe = await ada
    .post(`${path}/probes`, { name: 'Core', batchId, placedAt: minutesAgo(loadedAgo + 1) })
    .expect(201);
  await ada.post(`${path}/probes/${String(probe.body.id)}/readings`, { readings }).expect(200);
}

/** The core of a pail of 25 kg into which heat gets half as fast again as is reckoned with. */
function quickCore(): { at: string; temperatureC: number }[] {
  const usual = usualPail(25, 17.4, 12);
  const { groups } = warmPails({
    pails: [
      { ...usual, count: 1, films: { sideWPerM2K: 7.5, topWPerM2K: 7.5, bottomWPerM2K: 7.5 } },
    ],
    air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: 45 }] },
    untilHours: (loadedAgo - outAgo) / hour,
    sampleEveryHours: 0.5,
  });
  return groups[0]!.samples.map(({ atHours, coreC }) => ({
    at: minutesAgo(loadedAgo - atHours * hour),
    temperatureC: Number(coreC.toFixed(1)),
  }));
}

describeInBrowser('the page of a batch', () => {
  test('shows the planned and the logged curve, and says when the honey was clear', async () => {
    const world = await aBatchOnThePhone();
    const { ada, path, batchId, step, visitor } = world;
    await bookItsWarming(world);
    await step('loaded', loadedAgo, { temperatureC: 12 });
    await logCore(world, coreReadings());
    const { body } = await ada.get(`${path}/batches/${batchId}/temperatures`).expect(200);

    await go(visitor, `/batches/${batchId}`);
    const { page } = visitor;

    const words = (at: string) =>
      new Intl.DateTimeFormat('en-GB', {
        timeZone: 'Europe/Vienna',
        hour: '2-digit',
        minute: '2-digit',
      }).format(new Date(at));
    const sentence = await page.getByText(/^It reached 40.°C on/).innerText();
    // 12 °C and a degree an hour: 28 hours after it was loaded.
    expect(sentence).toContain(words(minutesAgo(loadedAgo - 28 * hour)));
    expect(sentence).toContain(words(body.planned.clearAt as string));

    const drawing = page.getByRole('img', { name: /^Temperature of the pails/ });
    await drawing.waitFor();
    const drawn = async (colour: string) =>
      drawing.locator(`[stroke="${colour}"] path, path[stroke="${colour}"]`).count();
    expect(await drawn('var(--warm)')).toBeGreaterThan(0);
    expect(await drawn('var(--ink-soft)')).toBeGreaterThan(0);

    await page.getByText('As a table').click();
    const row = page.getByRole('row').filter({ hasText: /44\.\d.°C.*43.°C/ });
    await row.first().waitFor();
    await page.getByRole('img', { name: /^HMF gained/ }).waitFor();
    expect(visitor.faults).toEqual([]);
  }, 200_000);

  test('says in a sentence how fast the pail really warmed, and unfolds the numbers', async () => {
    const world = await aBatchOnThePhone();
    const { ada, path, batchId, step, visitor } = world;
    await bookItsWarming(world);
    await step('loaded', loadedAgo, { temperatureC: 12 });
    await step('cleared', outAgo, { temperatureC: 44 });
    await logCore(world, quickCore());
    const { body } = await ada.get(`${path}/batches/${batchId}/warming-fit`).expect(200);
    expect(body.inWords).toMatch(/^It warmed about .* faster than reckoned: the next time/);

    await go(visitor, `/batches/${batchId}`);
    const { page } = visitor;
    const sentence = page.getByText(body.inWords as string);
    await sentence.waitFor();
    const film = page.getByRole('row').filter({ hasText: 'W/m²·K' });
    expect(await film.isVisible()).toBe(false);
    await sentence.click();

    expect(await film.innerText()).toMatch(/\b5\b.*7\.\d+ \(7\.\d+ to 7\.\d+\)/s);
    await page.getByText('Calculated times are estimates').first().waitFor();
    await page.getByText('How it was reckoned').first().click();
    await page.getByText(/^Which film coefficient/).waitFor();
    expect(visitor.faults).toEqual([]);
  }, 200_000);

  test('takes the next step in two taps, and takes it back', async () => {
    const { batchId, visitor } = await aBatchOnThePhone();
    const { page } = visitor;
    await go(visitor, `/batches/${batchId}`);

    const button = page.getByRole('button', { name: 'Load the cabinet' });
    const box = await button.boundingBox();
    // In thumb's reach: in the lower third of the screen, and large.
    expect(box!.y).toBeGreaterThan((2 * 740) / 3);
    expect(box!.height).toBeGreaterThanOrEqual(44);
    await button.click();
    expect(await page.getByLabel(/^Temperature of the honey/).getAttribute('inputmode')).toBe(
      'decimal',
    );
    await page.getByRole('button', { name: 'Load the cabinet' }).click();
    await page.getByText('Warming', { exact: true }).first().waitFor();

    await page.getByRole('button', { name: 'Take it back' }).click();
    await page.getByRole('button', { name: 'Load the cabinet' }).waitFor();
    await page.getByText('Planned', { exact: true }).first().waitFor();
    expect(visitor.faults).toEqual([]);
  }, 200_000);

  test('shows a look that is struck out with its reason, and the forecast forgets it', async () => {
    const { ada, path, batchId, seed, step, visitor } = await aBatchOnThePhone();
    const { page } = visitor;
    const day = 24 * hour;
    await step('loaded', 12 * day);
    await step('cleared', 11 * day);
    await step('cooled', 10 * day + 60);
    await step('seeded', 10 * day, { seed: [{ lotId: seed, massKg: 2.5 }] });
    await ada
      .post(`${path}/batches/${batchId}/setting-checks`, {
        at: minutesAgo(60),
        state: 'thickening',
      })
      .expect(201);
    await go(visitor, `/batches/${batchId}`);
    const forecast = page
      .locator('.sheet')
      .filter({ has: page.getByRole('heading', { name: 'When it has set' }) });
    await forecast.getByText(/it had not set/).waitFor();

    await page.getByRole('button', { name: 'Strike out' }).click();
    await page.getByLabel('Why was it mistaken?').fill('That was the other tub');
    await page.getByRole('button', { name: 'Strike out' }).last().click();

    await page.getByText(/That was the other tub/).waitFor();
    expect(await page.locator('s, .struck').innerText()).toContain('Thickening');
    await forecast.getByText(/it had not set/).waitFor({ state: 'detached' });
    await forecast.getByRole('img', { name: /^When it has probably set: with 50 %/ }).waitFor();
    expect(visitor.faults).toEqual([]);
  }, 200_000);
});

describeInBrowser('the list of batches', () => {
  test('finds a batch by name and marks one on hold', async () => {
    const { ada, club, path, visitor } = await aBatchOnThePhone();
    const { page } = visitor;
    const other = await aLot(ada, club, await aSource(service, club.clubId));
    await ada
      .post(`${path}/batches`, { name: 'Heather creamed', honey: [{ lotId: other, massKg: 1 }] })
      .expect(201);
    await ada.post(`${path}/lots/${other}/holds`, { reason: 'Smells odd' }).expect(201);
    await go(visitor, '/batches');
    await page.getByText('Everybody’s').click();
    await page.getByText('Lime creamed').waitFor();

    await page.getByLabel('Find by name').fill('heath');

    await page.getByText('Lime creamed').waitFor({ state: 'detached' });
    await page.getByRole('link', { name: /Heather creamed.*On hold/s }).waitFor();
    await page.getByLabel('Find by name').fill('nothing like that');
    await page.getByText('No batch is like that.').waitFor();
    expect(visitor.faults).toEqual([]);
  }, 200_000);
});

describeInBrowser('the page of a probe', () => {
  test('puts one in, takes a logger’s file twice, and shows what is wrong with a third', async () => {
    const { visitor } = await aBatchOnThePhone();
    const { page } = visitor;
    await go(visitor, '/club/probes');
    await page.getByLabel('Name').fill('Core, pail 3');
    await page.getByLabel('Where it is').selectOption({ label: 'Lime creamed' });
    await page.getByRole('button', { name: 'Put a probe in' }).click();
    await page.getByRole('heading', { name: 'Core, pail 3' }).waitFor();

    const rows = Array.from(
      { length: 6000 },
      (_, index) => `${minutesAgo(6000 - index)},${(20 + (index % 10) / 10).toFixed(1)}`,
    );
    const send = (text: string) =>
      page.getByLabel('The file').setInputFiles({
        name: 'logger.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(text),
      });
    await send(['at,temperatureC', ...rows, ''].join('\n'));
    await page.getByText('6,000 new readings are on record; 0 were there before.').waitFor();
    await page.getByRole('img', { name: /^What the probe read/ }).waitFor();
    await page.getByText('6,000 readings on record').waitFor();

    await send(['at,temperatureC', ...rows].join('\n'));
    await page.getByText('0 new readings are on record; 6,000 were there before.').waitFor();

    await send('at,temperatureC\nyesterday,21\n');
    await page.getByRole('alert').waitFor();
    await page
      .getByText(/--data-binary/)
      .first()
      .waitFor();
    expect(visitor.faults).toEqual([]);
  }, 200_000);
});
