import { Id, Instant, kgOf, MassKg, OneOf, Part, Text, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { LotKind } from '../platform/prisma-client/enums';
import type { HoldRow, ReachedRow } from './hold-rows';
import { MemberName } from '../members/member-name';
import { LotName } from '../lots/lot-name';

export class HoldRelease {
  @Instant()
  at!: string;

  @Part(() => MemberName)
  by!: MemberName;

  @Text({ max: 2000 })
  because!: string;

  @Text({ max: 2000 })
  evidence!: string;
}

export class HoldBranchRelease extends HoldRelease {
  @Part(() => LotName, { is: 'No way to the held lot leads through it any more.' })
  lot!: LotName;
}

export class HoldSummary {
  @Id()
  id!: string;

  @Part(() => LotName, { is: 'The suspect lot, where the hold starts.' })
  lot!: LotName;

  @Text({ max: 2000 })
  reason!: string;

  @Text({ min: 0, max: 2000 })
  evidence!: string;

  @Instant()
  placedAt!: string;

  @Part(() => MemberName)
  placedBy!: MemberName;

  @YesNo()
  isOpen!: boolean;

  @Part(() => HoldRelease, { nullable: true })
  release!: HoldRelease | null;

  @Each(() => HoldBranchRelease, { max: 10_000 })
  branchReleases!: HoldBranchRelease[];
}

export class ReachedLot {
  @Id()
  lotId!: string;

  @OneOf(LotKind)
  kind!: LotKind;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  holder!: MemberName;

  @MassKg({ min: 0, max: 1_000_000 })
  remainingMassKg!: number;
}

export class HoldResponse extends HoldSummary {
  @Each(() => ReachedLot, {
    max: 1_000_000,
    is: 'What it stops: the suspect lot and all made of it, but for branches released. None when the hold is over.',
  })
  reached!: ReachedLot[];
}

export function toHoldSummary(row: HoldRow): Pick<HoldSummary, keyof HoldSummary> {
  return {
    id: row.id,
    lot: { id: row.lotId, name: row.lotName },
    reason: row.reason,
    evidence: row.evidence,
    placedAt: row.placedAt.toISOString(),
    placedBy: { id: row.placedById, name: row.placedByName },
    isOpen: row.releasedAt === null,
    release: releaseOf(row),
    branchReleases: row.branches.map((branch) => ({
      lot: { id: branch.lotId, name: branch.lotName },
      at: new Date(branch.releasedAt).toISOString(),
      by: { id: branch.releasedById, name: branch.releasedByName },
      because: branch.because,
      evidence: branch.evidence,
    })),
  };
}

function releaseOf(row: HoldRow): HoldRelease | null {
  if (row.releasedAt === null || row.releasedById === null) return null;
  return {
    at: row.releasedAt.toISOString(),
    by: { id: row.releasedById, name: row.releasedByName ?? '' },
    because: row.releasedBecause,
    evidence: row.releaseEvidence,
  };
}

export function toHoldResponse(row: HoldRow, reached: readonly ReachedRow[]): HoldResponse {
  return {
    ...toHoldSummary(row),
    reached: reached.map((lot) => ({
      lotId: lot.lotId,
      kind: lot.kind,
      name: lot.name,
      holder: { id: lot.holderId, name: lot.holderName },
      remainingMassKg: kgOf(lot.remainingMassG),
    })),
  };
}
