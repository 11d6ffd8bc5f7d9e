import type { ApiClient } from './api';

interface Page<Item> {
  items: Item[];
  nextCursor: string | null;
}

interface SettingGroup {
  name: string;
  batchCount: number;
  stillSettingCount: number;
  median: { quotedDays: number | null; lowerDays: number; upperDays: number | null } | null;
}

interface Batch {
  name: string;
  creamedLotId: string | null;
}

interface Ancestors {
  items: { kind: string; name: string; share: number; farthestSteps: number }[];
  generation: number | null;
  firstSeedShare: number;
}

const method =
  'Half of the batches had set by the median; in brackets its 95 % interval. Invented data.';

/** What the service makes of the club's records, as a short text. */
export async function summaryOf(caller: ApiClient): Promise<string> {
  const { clubs } = await caller.get<{ clubs: { clubId: string }[] }>('/session');
  const path = `/clubs/${clubs[0]?.clubId ?? ''}`;
  const { groups, all } = await caller.get<{ groups: SettingGroup[]; all: SettingGroup }>(
    `${path}/setting-times`,
  );
  const rows = [...groups, all].map(({ name, batchCount, stillSettingCount, median }) => [
    name,
    String(batchCount),
    String(stillSettingCount),
    median === null ? 'too few seen set' : daysOf(median),
  ]);
  const table = aligned([['floral source', 'batches', 'not yet seen set', 'days to set'], ...rows]);
  return `${table}\n${method}\n\n${await lineageOf(caller, path)}`;
}

/** How much of the seed that was bought first is still in the newest batch. */
async function lineageOf(caller: ApiClient, path: string): Promise<string> {
  const batches = await caller.get<Page<Batch>>(`${path}/batches?limit=50`);
  const newest = batches.items.find(({ creamedLotId }) => creamedLotId !== null);
  if (newest === undefined) return 'No batch has been seeded yet.';
  const lot = `${path}/lots/${newest.creamedLotId ?? ''}`;
  const { items, generation, firstSeedShare } = await caller.get<Ancestors>(`${lot}/ancestors`);
  const seeds = items.filter(({ kind }) => kind === 'seed').length;
  const parts = firstSeedShare === 0 ? 'nothing' : `1 part in ${rounded(1 / firstSeedShare)}`;
  return (
    `The newest batch, ${newest.name}, is of the ${ordinal(generation ?? 0)} generation: ${seeds} lots of seed ` +
    `stand behind it, and of the seed that was bought at the beginning ${parts} is still in it.`
  );
}

function daysOf({ quotedDays, lowerDays, upperDays }: NonNullable<SettingGroup['median']>): string {
  const day = (days: number | null) => (days === null ? '…' : days.toFixed(1)).padStart(5);
  return `${day(quotedDays)}  (${day(lowerDays)} to ${day(upperDays)})`;
}

function rounded(value: number): string {
  return Number(value.toPrecision(2)).toLocaleString('en');
}

function ordinal(count: number): string {
  const ending = new Map([
    ['one', 'st'],
    ['two', 'nd'],
    ['few', 'rd'],
  ]).get(new Intl.PluralRules('en', { type: 'ordinal' }).select(count));
  return `${count}${ending ?? 'th'}`;
}

function aligned(rows: readonly string[][]): string {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => row[column]?.length ?? 0)),
  );
  return rows
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
