import { stepOrder } from '../core/batches/next-steps';
import { Decimal, Id, Instant, kgOf, MassKg, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each, SomeOf } from '../platform/list-fields';
import type { StepKind } from '../platform/prisma-client/enums';
import type { BatchRow, BatchSummaryRow } from './batch-rows';
import {
  CheckResponse,
  StepResponse,
  toCheckResponse,
  toStepResponse,
} from './batch-events.responses';
import { MemberName } from '../members/member-name';
import { batchTroubles, type BatchTrouble } from './batch-troubles';

const stages = ['planned', ...stepOrder];

const troublesInWords = {
  min: 0,
  is: 'on-hold: a hold reaches a lot of it. overstay: it stands past the end of its booking. too-hot: a step of it, or a probe in its honey before it was set, told of more than 50 °C.',
};

export class BatchSummary {
  @Id()
  id!: string;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  member!: MemberName;

  @OneOf(stages, { is: 'The last step done; planned: none yet.' })
  stage!: StepKind | 'planned';

  @Instant({ nullable: true, is: 'When that step was done.' })
  stageAt!: string | null;

  @MassKg({ min: 0, max: 1_000_000 })
  honeyMassKg!: number;

  @Id({ nullable: true, is: 'What it made.' })
  creamedLotId!: string | null;

  @SomeOf(batchTroubles, troublesInWords)
  troubles!: BatchTrouble[];

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Instant()
  createdAt!: string;
}

export class BatchLotMass {
  @Id()
  lotId!: string;

  @Text({ max: 120 })
  name!: string;

  @MassKg({ max: 1_000_000 })
  massKg!: number;
}

export class BatchCreamedLot {
  @Id()
  lotId!: string;

  @Text({ max: 120 })
  name!: string;

  @MassKg({ max: 1_000_000, is: 'All that went in.' })
  inputMassKg!: number;

  @MassKg({ max: 1_000_000, is: 'What went in, less what was lost when seed was stirred in.' })
  initialMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  remainingMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  usedMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  lentMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  pottedMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  lostMassKg!: number;
}

export class BatchPotsResponse {
  @MassKg()
  netMassKg!: number;

  @Whole({ min: 1, max: 100_000 })
  count!: number;
}

export class BatchFloralShare {
  @Id()
  floralSourceId!: string;

  @Text({ max: 200 })
  name!: string;

  @Decimal({ min: 0, max: 100, decimals: 4, is: 'Of the mass of the honey, to the hundredth.' })
  percent!: number;
}

export class BatchResponse {
  @Id()
  id!: string;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  member!: MemberName;

  @OneOf(stages, { is: 'The last step done; planned: none yet.' })
  stage!: StepKind | 'planned';

  @SomeOf(batchTroubles, troublesInWords)
  troubles!: BatchTrouble[];

  @Text({ min: 0, max: 2000 })
  note!: string;

  @Each(() => BatchLotMass, { max: 50, is: 'Meant for it; once seed is stirred in, what went in.' })
  honey!: BatchLotMass[];

  @Each(() => BatchFloralShare, { max: 1000, is: 'What the bees worked, of that honey.' })
  floralShares!: BatchFloralShare[];

  @Each(() => BatchLotMass, {
    max: 50,
    is: 'Reserved for it; once seed is stirred in, what went in.',
  })
  seed!: BatchLotMass[];

  @Part(() => BatchCreamedLot, { nullable: true, is: 'What it made.' })
  creamed!: BatchCreamedLot | null;

  @Each(() => BatchPotsResponse, { max: 50 })
  pots!: BatchPotsResponse[];

  @Part(() => BatchLotMass, { nullable: true, is: 'Put by as the seed of a next batch.' })
  seedPutBy!: BatchLotMass | null;

  @Each(() => StepResponse, { max: 8 })
  steps!: StepResponse[];

  @Each(() => CheckResponse, {
    max: 200,
    is: 'The latest 200; all of them under setting-checks.',
  })
  checks!: CheckResponse[];

  @Instant()
  createdAt!: string;
}

export function toBatchSummary(row: BatchSummaryRow): BatchSummary {
  return {
    id: row.id,
    name: row.name,
    member: { id: row.memberId, name: row.memberName },
    stage: row.stage,
    stageAt: row.stageAt?.toISOString() ?? null,
    honeyMassKg: kgOf(row.honeyMassG),
    creamedLotId: row.creamedLotId,
    troubles: row.troubles,
    note: row.note,
    createdAt: row.createdAt.toISOString(),
  };
}

export function toBatchResponse(row: BatchRow): BatchResponse {
  return {
    id: row.id,
    name: row.name,
    member: { id: row.memberId, name: row.memberName },
    stage: row.stage,
    troubles: row.troubles,
    note: row.note,
    honey: row.honey.map(toLotMass),
    floralShares: row.floralShares.map(({ floralSourceId, name, percent }) => ({
      floralSourceId,
      name,
      percent,
    })),
    seed: row.seed.map(toLotMass),
    creamed: row.creamed === null ? null : toCreamedLot(row.creamed),
    pots: row.pots.map(({ netMassG, count }) => ({ netMassKg: kgOf(netMassG), count })),
    seedPutBy: row.seedPutBy === null ? null : toLotMass(row.seedPutBy),
    steps: row.steps.map(toStepResponse),
    checks: row.checks.map(toCheckResponse),
    createdAt: row.createdAt.toISOString(),
  };
}

function toLotMass({ lotId, name, massG }: BatchRow['honey'][number]): BatchLotMass {
  return { lotId, name, massKg: kgOf(massG) };
}

function toCreamedLot(lot: NonNullable<BatchRow['creamed']>): BatchCreamedLot {
  return {
    lotId: lot.lotId,
    name: lot.name,
    inputMassKg: kgOf(lot.inputMassG),
    initialMassKg: kgOf(lot.initialMassG),
    remainingMassKg: kgOf(lot.remainingMassG),
    usedMassKg: kgOf(lot.usedMassG),
    lentMassKg: kgOf(lot.lentMassG),
    pottedMassKg: kgOf(lot.pottedMassG),
    lostMassKg: kgOf(lot.lostMassG),
  };
}
