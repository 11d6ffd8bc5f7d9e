import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'csv-parse/sync';
import { makeSeason } from '../../demo/season';
import { seasonCsv } from '../../demo/season-csv';
import { csvReferenceDay, demoSeed } from '../../demo/seed';

const file = path.resolve(__dirname, '../data/demo-batches.csv');

describe('the CSV of the demo', () => {
  test('is byte for byte what the season makes for its reference day', () => {
    const csv = seasonCsv(makeSeason(demoSeed, csvReferenceDay));

    expect(readFileSync(file, 'utf8')).toBe(csv);
  });

  test('can be read as CSV, and holds one row for each batch, each with every column', () => {
    const rows: Record<string, string>[] = parse(readFileSync(file), { columns: true });

    const refs = rows.map((row) => row['batch']);
    expect(refs).toEqual(makeSeason(demoSeed, csvReferenceDay).batches.map(({ ref }) => ref));
    expect(new Set(rows.map((row) => Object.keys(row).join()))).toHaveProperty('size', 1);
  });

  test('says that a batch set after it was last seen not set', () => {
    const rows: Record<string, string>[] = parse(readFileSync(file), { columns: true });

    const both = rows.filter(
      (row) => row['last_not_set_day'] !== '' && row['first_set_day'] !== '',
    );
    expect(both.length).toBeGreaterThan(80);
    for (const row of both) {
      expect(Number(row['last_not_set_day'])).toBeLessThan(Number(row['first_set_day']));
    }
  });
});
