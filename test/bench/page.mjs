import { once } from 'node:events';
import { createServer } from 'node:http';
import { randomBytes } from 'node:crypto';
import { chromium } from 'playwright-core';
import { fillPage } from './fill-page.mjs';

const rounds = Number(process.env.BENCH_PAGE_ROUNDS ?? 3);

/** A mid-range phone on a slow mobile network. */
const phone = { slowdown: 4, downBitsPerS: 1_600_000, upBitsPerS: 750_000, latencyMs: 150 };

const aims = { largestPaintMs: 2500, scriptKB: 200, viewMs: 1000, tapMs: 200 };

/** Each screen: the link that leads there, and what it shows when it is there. */
const views = [
  { name: 'the room, two weeks', link: '/room', content: 'svg.station .blocks' },
  { name: 'plan a run', link: '/room/plan', content: 'form input' },
  { name: 'batches', link: '/batches', content: '.rows a.row' },
  { name: 'a batch', link: 'a.row[href^="/batches/"]', content: '.columns .sheet button' },
  { name: 'seed and honey', link: '/seed', content: '.seed-card, table.shelf' },
  { name: 'a lot', link: 'main a[href^="/lots/0"]', content: '.columns .sheet button' },
  { name: 'setting times', link: '/setting-times', content: 'table' },
  { name: 'the club', link: '/club', content: '.sheet .rows li' },
  { name: 'stations', link: '/club/stations', content: '.sheet form' },
  { name: 'account', link: '/account', content: '[autocomplete=current-password]' },
  { name: 'reckon', link: '/calculators', content: 'form input, .asked input' },
  { name: 'today again', link: '/', content: '.task, .rows a.row' },
];

/**
 * The page as a phone sees it: the first load of Today beside a bare page of as many bytes, every other screen beside the bare fetch of its
 * answers, and how long taps and typing wait. A middle value of some rounds.
 */
export async function measurePage(serviceUrl, databaseUrl) {
  const filled = await fillPage(databaseUrl);
  console.log(
    `\npage: ${phone.slowdown} times slower, ${phone.downBitsPerS / 1e6} Mb/s, ${phone.latencyMs} ms; ` +
      `${filled.bookings} bookings and ${filled.batches} batches in view; ${rounds} rounds`,
  );
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'],
  });
  try {
    const found = [];
    for (let round = 0; round < rounds; round++) {
      found.push(await oneVisit(browser, serviceUrl, filled));
    }
    print(found);
  } finally {
    await browser.close();
  }
}

async function oneVisit(browser, serviceUrl, { email, password }) {
  const { page, session, context } = await aPhone(browser);
  await context.request.post(`${serviceUrl}/api/v1/session`, {
    data: { email, password },
    headers: { Origin: serviceUrl },
  });
  const load = await firstLoad(page, session, serviceUrl);
  const bare = await bareLoad(browser, load);
  // What is fetched ahead comes while the person reads.
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(3000);
  const times = [];
  for (const view of views) times.push(await measureView(page, view));
  const taps = await tapAndType(page);
  await context.close();
  return { load, bare, times, taps };
}

async function aPhone(browser) {
  const context = await browser.newContext({
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    isMobile: true,
    serviceWorkers: 'block',
    locale: 'en-GB',
  });
  await context.addInitScript(() => {
    globalThis.paints = [];
    globalThis.waits = [];
    new PerformanceObserver((list) => globalThis.paints.push(...list.getEntries())).observe({
      type: 'largest-contentful-paint',
      buffered: true,
    });
    new PerformanceObserver((list) => globalThis.waits.push(...list.getEntries())).observe({
      type: 'event',
      durationThreshold: 16,
      buffered: true,
    });
  });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: phone.latencyMs,
    downloadThroughput: phone.downBitsPerS / 8,
    uploadThroughput: phone.upBitsPerS / 8,
  });
  await session.send('Emulation.setCPUThrottlingRate', { rate: phone.slowdown });
  return { context, page, session };
}

async function firstLoad(page, session, serviceUrl) {
  const kinds = new Map();
  const bytes = { all: 0, script: 0 };
  session.on('Network.responseReceived', ({ requestId, type }) => kinds.set(requestId, type));
  const count = ({ requestId, encodedDataLength }) => {
    bytes.all += encodedDataLength;
    if (kinds.get(requestId) === 'Script') bytes.script += encodedDataLength;
  };
  session.on('Network.loadingFinished', count);
  await page.goto(`${serviceUrl}/`, { waitUntil: 'commit' });
  await page.locator('.task, .rows a.row').first().waitFor({ timeout: 60_000 });
  session.off('Network.loadingFinished', count);
  await page.waitForTimeout(500);
  const largestPaintMs = await page.evaluate(() => globalThis.paints.at(-1)?.startTime ?? 0);
  return { largestPaintMs, ...bytes };
}

/** What the network alone takes: one page, one script of as many bytes that cannot be compressed, and words that it writes. */
async function bareLoad(browser, { all }) {
  const server = createServer((request, response) => {
    if (request.url === '/filling.js') {
      response.setHeader('content-type', 'text/javascript');
      const filling = randomBytes(Math.round(all / 2)).toString('hex');
      response.end(`document.body.innerHTML = '<h1>There it is, all of it.</h1>'; //${filling}`);
    } else {
      response.setHeader('content-type', 'text/html');
      response.end('<!doctype html><title>Bare</title><body><script src="/filling.js"></script>');
    }
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { page, context } = await aPhone(browser);
  await page.goto(`http://127.0.0.1:${server.address().port}/`, { waitUntil: 'commit' });
  await page.getByRole('heading').waitFor();
  await page.waitForTimeout(300);
  const largestPaintMs = await page.evaluate(() => globalThis.paints.at(-1)?.startTime ?? 0);
  await context.close();
  server.close();
  return { largestPaintMs };
}

/** From the tap until the content is painted; and how long the answers that were asked for take, fetched again all at once. */
async function measureView(page, { name, link, content }) {
  const target = page.locator(link.startsWith('/') ? `a[href="${link}"]` : link).first();
  const ms = await target.evaluate(
    (element, wanted) =>
      new Promise((done, fail) => {
        const title = document.querySelector('h1')?.textContent;
        const wasThere = document.querySelector(`main ${wanted}`) !== null;
        performance.clearResourceTimings();
        const began = performance.now();
        const look = () => {
          const isNew = document.querySelector('h1')?.textContent !== title;
          const isThere = document.querySelector(`main ${wanted}`) !== null;
          if (isThere && (isNew || !wasThere)) {
            // A frame later it is painted.
            requestAnimationFrame(() => setTimeout(() => done(performance.now() - began)));
          } else if (performance.now() - began > 20_000) fail(new Error(`${wanted} did not come.`));
          else requestAnimationFrame(look);
        };
        element.click();
        look();
      }),
    content,
  );
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(300);
  const bareMs = await page.evaluate(async () => {
    const addresses = performance
      .getEntriesByType('resource')
      .filter(({ initiatorType }) => initiatorType === 'fetch')
      .map(({ name: address }) => address);
    const began = performance.now();
    await Promise.all(addresses.map(async (address) => (await fetch(address)).arrayBuffer()));
    return performance.now() - began;
  });
  return { name, ms, bareMs };
}

/** The longest waits after taps and keys, where most is shown: what the Event Timing API reports. */
async function tapAndType(page) {
  const waits = async (name, deed) => {
    await page.evaluate(() => void (globalThis.waits.length = 0));
    await deed();
    await page.waitForTimeout(500);
    const durations = await page.evaluate(() =>
      globalThis.waits
        .filter(({ interactionId }) => interactionId > 0)
        .map(({ duration }) => duration),
    );
    return { name, ms: Math.max(0, ...durations) };
  };
  const found = [];
  found.push(
    await waits('Today: the whole room, and mine', async () => {
      await page.getByText('The whole room', { exact: true }).tap();
      await page.waitForTimeout(1500);
      await page.getByText('Mine', { exact: true }).tap();
    }),
  );
  await page.locator('.task button:enabled').first().waitFor();
  found.push(
    await waits('Today: open a task', () => page.locator('.task button:enabled').first().tap()),
  );
  await page.locator('a[href="/batches"]').first().tap();
  await page.locator('.rows a.row').first().waitFor();
  found.push(
    await waits('batches: everybody’s', () => page.getByText('Everybody’s', { exact: true }).tap()),
  );
  await page.locator('a[href="/room"]').first().tap();
  await page.locator('svg.station .blocks').first().waitFor();
  found.push(
    await waits('room: open the form', () =>
      page.getByRole('button', { name: 'Book places' }).tap(),
    ),
  );
  const places = page.getByLabel('Places', { exact: true });
  await places.waitFor();
  found.push(
    await waits('room: type into it', async () => {
      await places.tap();
      await page.keyboard.type('1234', { delay: 120 });
    }),
  );
  found.push(await waits('room: one day', () => page.getByText('One day', { exact: true }).tap()));
  return found;
}

function print(found) {
  const middle = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
  const of = (pick) => middle(found.map(pick));
  const line = (name, value, unit, aim, baseline) =>
    console.log(
      `${name.padEnd(36)} ${value.toFixed(0).padStart(6)} ${unit}   aim ${aim} ${unit}` +
        `${value > aim ? '  MISSED' : ''}${baseline === undefined ? '' : `   baseline ${baseline.toFixed(0)} ${unit}`}`,
    );
  line(
    'Today, cold: largest paint',
    of(({ load }) => load.largestPaintMs),
    'ms',
    aims.largestPaintMs,
    of(({ bare }) => bare.largestPaintMs),
  );
  line(
    'Today, cold: script',
    of(({ load }) => load.script / 1000),
    'kB',
    aims.scriptKB,
  );
  for (const [index, { name }] of views.entries()) {
    line(
      name,
      of(({ times }) => times[index].ms),
      'ms',
      aims.viewMs,
      of(({ times }) => times[index].bareMs),
    );
  }
  for (const [index, { name }] of found[0].taps.entries()) {
    line(
      name,
      of(({ taps }) => taps[index].ms),
      'ms',
      aims.tapMs,
    );
  }
}
