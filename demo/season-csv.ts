import { stringify } from 'csv-stringify/sync';
import { memberOf } from './club';
import { dayMs, sumG, type BatchRecord, type Season } from './records';

const columns = [
  'batch',
  'member',
  'floral_source',
  'seeded_at',
  'setting_temperature_c',
  'seed_percent',
  'honey_kg',
  'seed_lot',
  'parent_batch',
  'last_not_set_day',
  'first_set_day',
  'looks',
  'outcome',
];

/** The batches of a season as CSV (RFC 4180), one row each, in the order of their refs. What is not known stays empty. */
export function seasonCsv(season: Season): string {
  return stringify(
    season.batches.map((batch) => rowOf(batch, season)),
    { header: true, columns, record_delimiter: '\r\n' },
  );
}

function rowOf(batch: BatchRecord, season: Season): string[] {
  const honeyG = sumG(batch.honey);
  const seedG = sumG(batch.seed);
  const { lastNotSetDay, firstSetDay } = seenOf(batch);
  return [
    batch.ref,
    memberOf(batch.member).name,
    batch.source,
    batch.seededAt?.toISOString() ?? '',
    batch.settingTemperatureC?.toFixed(1) ?? '',
    seedG === 0 ? '' : ((100 * seedG) / honeyG).toFixed(2),
    (honeyG / 1000).toFixed(3),
    batch.seed.map(({ lot }) => lot).join('+'),
    batch.seed.map(({ lot }) => parentOf(lot, season)).join('+'),
    lastNotSetDay?.toFixed(4) ?? '',
    firstSetDay?.toFixed(4) ?? '',
    String(batch.looks.length),
    batch.outcome,
  ];
}

/** Days after seeding at which it was last seen not set, and first seen set; null: never. */
export function seenOf({ seededAt, looks }: BatchRecord): {
  lastNotSetDay: number | null;
  firstSetDay: number | null;
} {
  if (seededAt === null) return { lastNotSetDay: null, firstSetDay: null };
  const days = ({ at }: { at: Date }) => (at.getTime() - seededAt.getTime()) / dayMs;
  const set = looks.find(({ state }) => state === 'set');
  const notSet = looks.findLast(({ state }) => state !== 'set');
  return {
    lastNotSetDay: notSet === undefined ? null : days(notSet),
    firstSetDay: set === undefined ? null : days(set),
  };
}

/** The batch that put the seed by, through loans if need be; `bought` for seed that came from outside. */
function parentOf(lot: string, season: Season): string {
  const loan = season.loans.find(({ ref }) => ref === lot);
  if (loan !== undefined) return parentOf(loan.fromLot, season);
  return lot.endsWith('-seed') ? lot.slice(0, -'-seed'.length) : 'bought';
}
