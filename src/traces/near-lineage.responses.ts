import { MOST_LOTS_DRAWN, type NearestLots } from '../core/drawing/choose-lots';
import type { DrawnLot } from '../core/drawing/drawn-lot';
import { Decimal, Id, kgOf, MassKg, OneOf, Part, Text, Whole, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { LotKind } from '../platform/prisma-client/enums';
import { MemberName } from '../members/member-name';

export class NearLineageQuery {
  @Whole({
    min: 1,
    max: MOST_LOTS_DRAWN,
    optional: true,
    fromText: true,
    is: `At most so many lots, ${MOST_LOTS_DRAWN} unless given: the nearest, and of those equally far the largest shares.`,
  })
  most?: number;
}

const relations = ['ancestor', 'asked', 'descendant'] as const;

export class LineageLot {
  @Id()
  lotId!: string;

  @Text({ max: 7 })
  code!: string;

  @OneOf(LotKind)
  kind!: LotKind;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  holder!: MemberName;

  @OneOf(relations, { is: 'It is in the lot asked about, is that lot, or holds some of it.' })
  relation!: (typeof relations)[number];

  @Decimal({
    min: 0,
    max: 1,
    decimals: 20,
    is: 'Mass fraction of the ancestor in the descendant, over all paths; 1 for the lot asked about.',
  })
  share!: number;

  @Whole({ min: 0, max: 1_000_000, is: 'The fewest steps to the lot asked about.' })
  nearestSteps!: number;

  @Whole({ min: 0, max: 1_000_000, is: 'The most steps to the lot asked about.' })
  farthestSteps!: number;

  @MassKg({ max: 1_000_000 })
  initialMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000 })
  remainingMassKg!: number;

  @YesNo({ is: 'An open hold reaches it: nothing leaves it until it is released.' })
  onHold!: boolean;
}

export class LineageLine {
  @Id({ is: 'Of this lot …' })
  parentId!: string;

  @Id({ is: '… so much went into this one.' })
  childId!: string;

  @MassKg({ max: 1_000_000 })
  massKg!: number;

  @Decimal({ min: 0, max: 1, decimals: 20, is: 'Of all that went into the child.' })
  part!: number;
}

export class NearLineageResponse {
  @Id()
  lotId!: string;

  @Each(() => LineageLot, { max: MOST_LOTS_DRAWN, is: 'The lot asked about, then the nearest.' })
  lots!: LineageLot[];

  @Each(() => LineageLine, { max: 100_000, is: 'What went from one of these lots into another.' })
  lines!: LineageLine[];

  @Whole({ min: 0, max: 1_000_000, is: 'Lots that are related, too, and farther away.' })
  leftOut!: number;
}

/** What is there of a lot now. */
export interface LotNow {
  id: string;
  remainingMassG: number;
  onHold: boolean;
}

export function toNearLineage(
  lotId: string,
  { lots, edges, leftOut }: NearestLots,
  now: readonly LotNow[],
): NearLineageResponse {
  const nowOf = new Map(now.map((lot) => [lot.id, lot]));
  return {
    lotId,
    lots: lots.map((lot) => toLineageLot(lot, nowOf.get(lot.id))),
    lines: edges.map(({ parentId, childId, massG, part }) => ({
      parentId,
      childId,
      massKg: kgOf(massG),
      part,
    })),
    leftOut,
  };
}

function toLineageLot(lot: DrawnLot, now: LotNow | undefined): LineageLot {
  return {
    lotId: lot.id,
    code: lot.code,
    kind: lot.kind,
    name: lot.name,
    holder: { id: lot.holderId, name: lot.holderName },
    relation: lot.relation,
    share: lot.share,
    nearestSteps: lot.nearest,
    farthestSteps: lot.farthest,
    initialMassKg: kgOf(lot.initialMassG),
    remainingMassKg: kgOf(now?.remainingMassG ?? 0),
    onHold: now?.onHold ?? false,
  };
}
