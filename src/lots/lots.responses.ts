import {
  Day,
  Decimal,
  Id,
  Instant,
  kgOf,
  MassKg,
  OneOf,
  Part,
  SharePercent,
  TemperatureC,
  Text,
  Whole,
} from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { Grain, LotKind, MovementKind } from '../platform/prisma-client/enums';
import type { LotRow, MovementRow } from './lot-rows';
import { MemberName } from '../members/member-name';

export class LotFloralPart {
  @Id()
  floralSourceId!: string;

  @Text({ max: 200 })
  name!: string;

  @SharePercent()
  percent!: number;
}

export class LotOriginPart {
  @Text({ max: 2, is: 'ISO 3166-1 alpha-2.' })
  countryCode!: string;

  @SharePercent()
  percent!: number;
}

export class LotReading {
  @Decimal({ min: 1.4, max: 1.6, decimals: 5 })
  refractiveIndex!: number;

  @TemperatureC()
  temperatureC!: number;
}

export class LotResponse {
  @Id()
  id!: string;

  @Text({ max: 7, is: 'For people: to write on a tub, read aloud and type.' })
  code!: string;

  @OneOf(LotKind)
  kind!: LotKind;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  holder!: MemberName;

  @MassKg({ max: 1_000_000, is: 'What it began with: the five masses that follow, added up.' })
  initialMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  remainingMassKg!: number;

  @MassKg({
    min: 0,
    max: 1_000_000,
    is: 'Of what remains: seed reserved for batches, which nobody else may draw.',
  })
  reservedMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  usedMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  lentMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  pottedMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  lostMassKg!: number;

  @MassKg({
    min: 0,
    max: 1_000_000,
    is: 'What went into it from other lots; 0 for a lot that was brought in.',
  })
  inputMassKg!: number;

  @Whole({ min: 0, max: 1_000_000, is: 'The most steps back to a lot that was brought in.' })
  depth!: number;

  @Decimal({ min: 0, max: 100, decimals: 2, nullable: true })
  moisturePercent!: number | null;

  @OneOf(['refractometer', 'stated'], { nullable: true, is: 'How the moisture is known.' })
  moistureKnownBy!: 'refractometer' | 'stated' | null;

  @Part(() => LotReading, { nullable: true })
  refractometer!: LotReading | null;

  @Day({ nullable: true })
  extractedOn!: string | null;

  @Text({ min: 0, max: 200 })
  origin!: string;

  @OneOf(Grain, { nullable: true })
  grain!: Grain | null;

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Id({ nullable: true, is: 'The batch that made this creamed lot, or put this seed by.' })
  batchId!: string | null;

  @Each(() => LotFloralPart, {
    max: 20,
    is: 'As stated when it was brought in; of a made lot, see its ancestors.',
  })
  floralShares!: LotFloralPart[];

  @Each(() => LotOriginPart, { max: 20 })
  originShares!: LotOriginPart[];

  @Texts({
    max: 36,
    most: 10_000,
    is: 'The open holds that reach it: their ids. Until they are released, nothing leaves it.',
  })
  onHold!: string[];

  @Instant()
  createdAt!: string;
}

export function toLotResponse(row: LotRow): LotResponse {
  return {
    id: row.id,
    code: row.code,
    kind: row.kind,
    name: row.name,
    holder: { id: row.holderId, name: row.holderName },
    initialMassKg: kgOf(row.initialMassG),
    remainingMassKg: kgOf(row.remainingMassG),
    reservedMassKg: kgOf(row.reservedMassG),
    usedMassKg: kgOf(row.usedMassG),
    lentMassKg: kgOf(row.lentMassG),
    pottedMassKg: kgOf(row.pottedMassG),
    lostMassKg: kgOf(row.lostMassG),
    inputMassKg: kgOf(row.inputMassG),
    depth: row.depth,
    moisturePercent: row.moistureCentiPercent === null ? null : row.moistureCentiPercent / 100,
    moistureKnownBy: moistureKnownBy(row),
    refractometer:
      row.refractiveIndexE5 === null || row.readAtDeciC === null
        ? null
        : {
            refractiveIndex: row.refractiveIndexE5 / 100_000,
            temperatureC: row.readAtDeciC / 10,
          },
    extractedOn: row.extractedOn,
    origin: row.origin,
    grain: row.grain,
    note: row.note,
    batchId: row.batchId,
    floralShares: row.floralShares.map(({ floralSourceId, name, centiPercent }) => ({
      floralSourceId,
      name,
      percent: centiPercent / 100,
    })),
    originShares: row.originShares.map(({ countryCode, centiPercent }) => ({
      countryCode,
      percent: centiPercent / 100,
    })),
    onHold: row.onHold,
    createdAt: row.createdAt.toISOString(),
  };
}

function moistureKnownBy(row: LotRow): LotResponse['moistureKnownBy'] {
  if (row.moistureCentiPercent === null) return null;
  return row.refractiveIndexE5 === null ? 'stated' : 'refractometer';
}

export class LotName {
  @Id()
  id!: string;

  @Text({ max: 120 })
  name!: string;
}

export class MovementResponse {
  @Id()
  id!: string;

  @OneOf(MovementKind)
  kind!: MovementKind;

  @MassKg({ min: -1_000_000, max: 1_000_000, is: 'Below 0: put back by a correction.' })
  massKg!: number;

  @Part(() => LotName, { nullable: true, is: 'The lot it went into.' })
  intoLot!: LotName | null;

  @Instant()
  at!: string;

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Part(() => MemberName)
  recordedBy!: MemberName;

  @Instant()
  recordedAt!: string;

  @Id({ nullable: true, is: 'The correction that filed it.' })
  correctionId!: string | null;
}

export function toMovementResponse(row: MovementRow): MovementResponse {
  return {
    id: row.id,
    kind: row.kind,
    massKg: kgOf(row.massG),
    intoLot:
      row.intoLotId === null || row.intoLotName === null
        ? null
        : { id: row.intoLotId, name: row.intoLotName },
    at: row.at.toISOString(),
    note: row.note,
    recordedBy: { id: row.recordedById, name: row.recordedByName },
    recordedAt: row.recordedAt.toISOString(),
    correctionId: row.correctionId,
  };
}
