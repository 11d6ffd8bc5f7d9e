import { Decimal, Id, Instant, Part, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';

export class ProbePlacementResponse {
  @Id({ nullable: true })
  stationId!: string | null;

  @Id({ nullable: true })
  batchId!: string | null;

  @Text({ max: 200, is: 'Of the station or the batch.' })
  name!: string;

  @Instant()
  startsAt!: string;

  @Instant({ nullable: true, is: 'Null: it is there.' })
  endsAt!: string | null;
}

export class LastReading {
  @Instant()
  at!: string;

  @Decimal({ min: -40, max: 150, decimals: 1 })
  temperatureC!: number;
}

export class ListedProbeResponse {
  @Id()
  id!: string;

  @Text({ max: 80 })
  name!: string;

  @Text({ min: 0, max: 1000 })
  note!: string;

  @Part(() => ProbePlacementResponse, { nullable: true, is: 'Where it is; null: nowhere.' })
  placement!: ProbePlacementResponse | null;

  @Part(() => LastReading, { nullable: true })
  lastReading!: LastReading | null;
}

export class ProbeResponse extends ListedProbeResponse {
  @Each(() => ProbePlacementResponse, {
    max: 200,
    is: 'Where it is and was, the latest first; the last 200.',
  })
  placements!: ProbePlacementResponse[];

  @Whole({ min: 0, max: 2_147_483_647, is: 'How many readings it has on record.' })
  readings!: number;
}

export interface PlacementRow {
  stationId: string | null;
  batchId: string | null;
  name: string;
  startsAt: string;
  endsAt: string | null;
}

export interface ListedProbeRow {
  id: string;
  name: string;
  note: string;
  placement: PlacementRow | null;
  lastReading: { at: string; temperatureDeciC: number } | null;
}

export interface ProbeRow extends ListedProbeRow {
  placements: PlacementRow[];
  readings: number;
}

export function toListedProbeResponse(row: ListedProbeRow): ListedProbeResponse {
  const { id, name, note, placement, lastReading } = row;
  return {
    id,
    name,
    note,
    placement: placement === null ? null : toPlacementResponse(placement),
    lastReading:
      lastReading === null
        ? null
        : { at: iso(lastReading.at), temperatureC: lastReading.temperatureDeciC / 10 },
  };
}

export function toProbeResponse(row: ProbeRow): ProbeResponse {
  const { id, name, note, placement, lastReading } = toListedProbeResponse(row);
  return {
    id,
    name,
    note,
    placement,
    lastReading,
    placements: row.placements.map(toPlacementResponse),
    readings: row.readings,
  };
}

function toPlacementResponse(row: PlacementRow): ProbePlacementResponse {
  const { stationId, batchId, name, startsAt, endsAt } = row;
  return {
    stationId,
    batchId,
    name,
    startsAt: iso(startsAt),
    endsAt: endsAt === null ? null : iso(endsAt),
  };
}

function iso(at: string): string {
  return new Date(at).toISOString();
}
