import { Id, Instant, OneOf, Part, TemperatureC, Text } from '../platform/fields';
import { Firmness, SettingState, StepKind, Texture } from '../platform/prisma-client/enums';
import { MemberName } from '../members/member-name';
import type { CheckRow, StepRow } from './batch-rows';

/** A dated thing done to a batch. */
export class StepResponse {
  @Id()
  id!: string;

  @OneOf(StepKind)
  kind!: StepKind;

  @Instant()
  at!: string;

  @TemperatureC({ nullable: true })
  temperatureC!: number | null;

  @Id({
    nullable: true,
    is: 'The lot that the step made: creamed honey when seeded, seed put by when potted.',
  })
  madeLotId!: string | null;

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Part(() => MemberName)
  recordedBy!: MemberName;

  @Instant()
  recordedAt!: string;
}

export function toStepResponse(row: StepRow): StepResponse {
  return {
    id: row.id,
    kind: row.kind,
    at: iso(row.at),
    temperatureC: degrees(row.temperatureDeciC),
    madeLotId: row.madeLotId,
    note: row.note,
    recordedBy: { id: row.recordedById, name: row.recordedByName },
    recordedAt: iso(row.recordedAt),
  };
}

/** That a setting check was mistaken. */
export class StrikeOutResponse {
  @Instant()
  at!: string;

  @Part(() => MemberName)
  by!: MemberName;

  @Text({ max: 500 })
  because!: string;
}

/** Somebody looked at a batch. */
export class CheckResponse {
  @Id()
  id!: string;

  @Instant()
  at!: string;

  @OneOf(SettingState)
  state!: SettingState;

  @OneOf(Texture, { nullable: true })
  texture!: Texture | null;

  @OneOf(Firmness, { nullable: true })
  firmness!: Firmness | null;

  @TemperatureC({ nullable: true })
  temperatureC!: number | null;

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Part(() => MemberName)
  checkedBy!: MemberName;

  @Instant()
  recordedAt!: string;

  @Part(() => StrikeOutResponse, {
    nullable: true,
    is: 'Struck out as mistaken: it is kept, and counts for nothing.',
  })
  struckOut!: StrikeOutResponse | null;
}

export function toCheckResponse(row: CheckRow): CheckResponse {
  return {
    id: row.id,
    at: iso(row.at),
    state: row.state,
    texture: row.texture,
    firmness: row.firmness,
    temperatureC: degrees(row.temperatureDeciC),
    note: row.note,
    checkedBy: { id: row.checkedById, name: row.checkedByName },
    recordedAt: iso(row.recordedAt),
    struckOut: strikeOutOf(row),
  };
}

function strikeOutOf(row: CheckRow): StrikeOutResponse | null {
  if (row.struckAt === null || row.struckById === null) return null;
  return {
    at: iso(row.struckAt),
    by: { id: row.struckById, name: row.struckByName ?? '' },
    because: row.struckBecause,
  };
}

// Within a batch they come as PostgreSQL's JSON writes times.
function iso(at: Date | string): string {
  return new Date(at).toISOString();
}

function degrees(deciC: number | null): number | null {
  return deciC === null ? null : deciC / 10;
}
