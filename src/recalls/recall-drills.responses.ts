import { Id, Instant, kgOf, MassKg, Part, Whole, YesNo } from '../platform/fields';
import { MemberName } from '../members/member-name';
import { LotName } from '../lots/lot-name';

const mass = { min: 0, max: 1_000_000 };

export class RecallDrillResponse {
  @Id()
  id!: string;

  @Part(() => LotName, { is: 'The lot that was suspected, as an exercise.' })
  lot!: LotName;

  @Part(() => MemberName)
  runBy!: MemberName;

  @Instant()
  at!: string;

  @Whole({ min: 0, max: 1_000_000, is: 'From the question to the whole report.' })
  durationMs!: number;

  @Whole({ min: 0, max: 1_000_000, is: 'Lots that it was in.' })
  lots!: number;

  @Whole({ min: 0, max: 1_000_000, is: 'Members who would have to be called.' })
  holders!: number;

  @MassKg({ ...mass, is: 'What the lot began with.' })
  soughtKg!: number;

  @MassKg({ ...mass, is: 'Of it, what was found: the four that follow, added up.' })
  foundKg!: number;

  @MassKg({ ...mass, is: 'Still in lots: a hold stops it.' })
  inLotsKg!: number;

  @MassKg({ ...mass, is: 'In pots.' })
  pottedKg!: number;

  @MassKg({ ...mass, is: 'Withdrawn for some use: where it went only the notes tell.' })
  withdrawnKg!: number;

  @MassKg({ ...mass, is: 'Lost, in the making or later.' })
  lostKg!: number;

  @YesNo({ is: 'All that was sought was found, to the gram.' })
  isComplete!: boolean;
}

/** A drill with all that its answer shows. */
export interface DrillRow {
  id: string;
  lotId: string;
  lotName: string;
  runById: string;
  runByName: string;
  runAt: Date;
  durationMs: number;
  lots: number;
  holders: number;
  soughtG: number;
  foundG: number;
  inLotsG: number;
  pottedG: number;
  withdrawnG: number;
  lostG: number;
}

export function toDrillResponse(row: DrillRow): RecallDrillResponse {
  return {
    id: row.id,
    lot: { id: row.lotId, name: row.lotName },
    runBy: { id: row.runById, name: row.runByName },
    at: row.runAt.toISOString(),
    durationMs: row.durationMs,
    lots: row.lots,
    holders: row.holders,
    soughtKg: kgOf(row.soughtG),
    foundKg: kgOf(row.foundG),
    inLotsKg: kgOf(row.inLotsG),
    pottedKg: kgOf(row.pottedG),
    withdrawnKg: kgOf(row.withdrawnG),
    lostKg: kgOf(row.lostG),
    isComplete: row.foundG === row.soughtG,
  };
}
