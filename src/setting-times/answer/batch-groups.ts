import { seasons } from '../../core/setting/season';
import { temperatureBand } from '../../core/setting/temperature-band';
import type { ObservedBatch } from './observed-batch';
import type { Grouping } from './question';

/** Batches that have something in common. */
export interface BatchGroup {
  /** Tells it from the others; null: of these it is not known, or they are mixed. */
  key: string | null;
  /** Of the floral source, the seed lot or the station. */
  id: string | null;
  name: string;
  batches: ObservedBatch[];
}

type Label = Omit<BatchGroup, 'batches'>;

/** Which group a batch belongs to. */
const labelOf: Record<Grouping, (batch: ObservedBatch) => Label> = {
  floralSource: ({ floralSourceId, floralSourceName }) =>
    label(floralSourceId, floralSourceName, 'mixed'),
  seedLine: ({ seedLineId, seedLineName }) => label(seedLineId, seedLineName, 'seed not known'),
  station: ({ stationId, stationName }) => label(stationId, stationName, 'station not known'),
  season: ({ season }) => ({ key: season, id: null, name: season }),
  temperatureBand: ({ settingTemperature }) => {
    if (settingTemperature === null) return { key: null, id: null, name: 'temperature not known' };
    const { fromC, toC } = temperatureBand(settingTemperature.meanC);
    const name = `${fromC} to ${toC} °C`;
    return { key: name, id: null, name };
  },
};

function label(id: string | null, name: string | null, without: string): Label {
  return { key: id, id, name: name ?? without };
}

/**
 * The groups of some batches. Seasons and bands of temperature come in their own order, others with the most batches first; what belongs
 * to none comes last. Groups that share a name are told apart by a number.
 */
export function groupBatches(batches: readonly ObservedBatch[], by: Grouping): BatchGroup[] {
  const groups = new Map<string | null, BatchGroup>();
  for (const batch of batches) {
    const own = labelOf[by](batch);
    const group = groups.get(own.key);
    if (group === undefined) groups.set(own.key, { ...own, batches: [batch] });
    else group.batches.push(batch);
  }
  const ordered = [...groups.values()].sort(
    (a, b) => Number(a.key === null) - Number(b.key === null) || inOrder[by](a, b),
  );
  return withDifferentNames(ordered);
}

type Order = (a: BatchGroup, b: BatchGroup) => number;

const mostFirst: Order = (a, b) =>
  b.batches.length - a.batches.length ||
  compare(a.name, b.name) ||
  compare(a.key ?? '', b.key ?? '');

const inOrder: Record<Grouping, Order> = {
  floralSource: mostFirst,
  seedLine: mostFirst,
  station: mostFirst,
  season: (a, b) => seasonIndex(a) - seasonIndex(b),
  temperatureBand: (a, b) => Number.parseFloat(a.name) - Number.parseFloat(b.name),
};

function seasonIndex({ key }: BatchGroup): number {
  return seasons.findIndex((season) => season === key);
}

function compare(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

function withDifferentNames(groups: readonly BatchGroup[]): BatchGroup[] {
  const taken = new Set<string>();
  return groups.map((group) => {
    let { name } = group;
    for (let number = 2; taken.has(name); number += 1) name = `${group.name} (${number})`;
    taken.add(name);
    return { ...group, name };
  });
}
