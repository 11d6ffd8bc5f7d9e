import { dress } from '../../src/app';
import { readSettings } from '../../src/platform/settings';
import type { SeededBatchText } from '../../src/setting-times/seeded-batch';
import { SettingFits } from '../../src/setting-times/setting-fits';
import { aSource, aSeededBatch, daysAgo } from '../support/lots';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();
const dayMs = 86_400_000;

/** Batches as the database would write them, looked at every few days, no two alike. */
function manyBatches(count: number): SeededBatchText {
  const batches = Array.from({ length: count }, (_, index) => {
    const seededAt = Date.parse('2020-01-01T00:00:00Z') + index * 3_600_000;
    const days = 8 + 9 * Math.abs(Math.sin(index * 12.9898)) + (index % 4);
    return {
      batchId: String(index),
      seededAt,
      isAbandoned: false,
      floralSourceId: String(index % 4),
      floralSourceName: `Source ${index % 4}`,
      checks: [
        { at: seededAt + (days - 2) * dayMs, state: 'liquid' },
        { at: seededAt + days * dayMs, state: 'set' },
      ],
      seedFraction: 0.05 + 0.001 * (index % 97),
      seedGrain: null,
      waterPercent: 16 + 0.01 * (index % 301),
      honeyAgeDays: index % 211,
      seedLineId: null,
      seedLineName: null,
      stationId: null,
      stationName: null,
      readingsMeanC: 12 + 0.01 * (index % 283),
      bandMiddleC: null,
    };
  });
  return { batches: JSON.stringify(batches), timeZone: 'Europe/Vienna' };
}

test('others are answered while a long fit runs', async () => {
  const { ada, path } = await aClub(service);
  const fits = service.app.get(SettingFits);
  const state: { done?: true } = {};
  const fit = fits
    .answer(manyBatches(900), {
      by: 'floralSource',
      adjust: ['temperature', 'seedFraction', 'moisture', 'honeyAge'],
    })
    .finally(() => {
      state.done = true;
    });

  // Of these, the last may have come after the fit.
  let answered = 0;
  while (state.done === undefined) {
    await ada.get(`${path}/batches`).expect(200);
    answered += 1;
  }

  // Were the fit to hold this thread, the first request would be answered after it.
  expect(answered).toBeGreaterThan(5);
  const { adjusted, all } = await fit;
  expect(all.batchCount).toBe(900);
  expect(adjusted?.batchCount).toBe(900);
});

test('the same batches asked about at once and later are computed once', async () => {
  const fits = service.app.get(SettingFits);
  const batches = manyBatches(30);
  const question = { by: 'season', adjust: [] } as const;

  const [first, second] = await Promise.all([
    fits.answer(batches, question),
    fits.answer(batches, question),
  ]);
  const third = await fits.answer({ ...batches }, { ...question });
  const other = await fits.answer(batches, { by: 'floralSource', adjust: [] });

  // The very same object: nothing was computed anew.
  expect(second).toBe(first);
  expect(third).toBe(first);
  expect(other).not.toBe(first);
});

test('a new look counts at once, in every copy of the service, and so does one struck out', async () => {
  const { ada, clubId, ...club } = await aClub(service);
  const sourceId = await aSource(service, clubId);
  const { path } = await aSeededBatch(ada, club, sourceId, daysAgo(20));
  const copy = await dress(service.database.url, readSettings({ LOG_LEVEL: 'silent' }));
  await copy.listen(0, '127.0.0.1');
  const times = `${club.path}/setting-times`;
  const inBoth = async (): Promise<unknown[]> => {
    const there = await fetch(`${await copy.getUrl()}/api/v1${times}`, {
      headers: { authorization: `Bearer ${String(ada.token)}` },
    });
    return [(await ada.get(times).expect(200)).body, await there.json()];
  };
  try {
    const [before] = await inBoth();
    const { body: check } = await ada
      .post(`${path}/setting-checks`, { at: daysAgo(5), state: 'set' })
      .expect(201);
    const [after, afterThere] = await inBoth();
    await ada
      .post(`${path}/setting-checks/${String(check.id)}/strike-out`, { because: 'A slip.' })
      .expect(200);
    const [struck, struckThere] = await inBoth();

    expect(before).toMatchObject({ all: { setCount: 0 } });
    expect(after).toMatchObject({ all: { setCount: 1 } });
    expect(afterThere).toEqual(after);
    expect(struck).toEqual(before);
    expect(struckThere).toEqual(before);
  } finally {
    await copy.close();
  }
});
