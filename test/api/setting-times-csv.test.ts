import { parse } from 'csv-parse/sync';
import { aSource } from '../support/lots';
import { seededBatches } from '../support/seeded-batches';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();

async function aWorld() {
  const { ada, clubId, path } = await aClub(service);
  const sourceId = await aSource(service, clubId, '=Rape, early');
  const seen = [7, 9, 10, 12, 15, 20].map((upper, index) => ({
    lower: upper - 3,
    upper,
    moistureCentiPercent: 1650 + 40 * (index % 3),
  }));
  const club = { clubId, memberId: ada.memberId, sourceId, from: new Date('2025-03-01T09:00:00Z') };
  await seededBatches(service, club, seen);
  const table = async (query: string): Promise<Record<string, string>[]> => {
    const { text, headers } = await ada.get(`${path}/setting-times.csv?${query}`).expect(200);
    expect(headers['content-type']).toMatch(/^text\/csv/);
    return parse(text, { columns: true });
  };
  return { ada, path, table };
}

test('the tables hold what the answer holds, a row for each group and one for all', async () => {
  const { ada, path, table } = await aWorld();
  const { body } = await ada.get(`${path}/setting-times?adjust=moisture`).expect(200);

  const groups = await table('adjust=moisture');
  const curve = await table('table=curve');
  const adjusted = await table('adjust=moisture&table=adjustedGroups');
  const adjustedCurve = await table('adjust=moisture&table=adjustedCurve');

  expect(groups).toHaveLength(2);
  expect(groups[1]).toMatchObject({
    group: 'all',
    batchCount: '6',
    medianDays: String(body.all.median.quotedDays),
    tooFew: '',
  });
  expect(curve.filter(({ group }) => group === 'all').map(({ mass }) => Number(mass))).toEqual(
    body.all.curve.map(({ mass }: { mass: number }) => mass),
  );
  expect(adjusted.map(({ medianDays }) => Number(medianDays))).toEqual([
    body.adjusted.groups[0].medianDays,
  ]);
  expect(adjustedCurve.map(({ days }) => Number(days))).toEqual(
    body.adjusted.groups[0].curve.map(({ days }: { days: number }) => days),
  );
});

test('a name that looks like a formula is text to a spreadsheet', async () => {
  const { table } = await aWorld();

  const [row] = await table('');

  expect(row?.['group']).toBe("'=Rape, early");
});

test('a table of what was adjusted needs something to adjust for', async () => {
  const { ada, path } = await aWorld();
  for (const query of ['table=adjustedCurve', 'adjust=floralSource']) {
    const { body } = await ada.get(`${path}/setting-times.csv?${query}`).expect(422);
    expect(body.errors[0].parameter).toBe('adjust');
  }
});
