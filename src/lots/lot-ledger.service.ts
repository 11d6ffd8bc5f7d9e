import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { refuseOnHold } from '../holds/refuse-on-hold';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { kgOf } from '../platform/fields';
import { Prisma } from '../platform/prisma-client/client';
import type { Grain, LotKind } from '../platform/prisma-client/enums';

/** A lot as it stands while the transaction holds it. */
export interface HeldLot {
  id: string;
  kind: LotKind;
  name: string;
  holderId: string;
  remainingMassG: number;
  /** Of that: seed reserved for batches. */
  reservedMassG: number;
  depth: number;
  grain: Grain | null;
}

/** So many grams of a lot, and where in the body the lot and the mass were asked for. */
export interface Part {
  lot: HeldLot;
  massG: number;
  lotPointer: string;
  massPointer: string;
}

export interface NewLot {
  kind: LotKind;
  name: string;
  holderId: string;
  initialMassG: number;
  grain: Grain | null;
  batchId: string | null;
  note: string;
}

/** Moves mass between lots. The database draws each parent down, and refuses what does not close. */
@Injectable()
export class LotLedger {
  /**
   * Locks lots of the caller's club, always in the order of their ids, so that two transactions never wait for each other. Before
   * them it shares the club's lock on its lots, which whoever places a hold has alone.
   */
  async hold(tx: Transaction, clubId: string, lotIds: string[]): Promise<Map<string, HeldLot>> {
    if (lotIds.length === 0) return new Map();
    const lots = await tx.$queryRaw<Omit<HeldLot, 'reservedMassG'>[]>(Prisma.sql`
      with turn as materialized (select true as taken from share_lots_lock(${clubId}::uuid))
      select id, kind::text as kind, name, holder_id as "holderId", remaining_mass_g as "remainingMassG", depth, grain::text as grain
      from turn, lot where club_id = ${clubId}::uuid and id = any(${lotIds}::uuid[])
      order by id for no key update of lot`);
    const seed = lots.filter(({ kind }) => kind === 'seed').map(({ id }) => id);
    const reservedG = await reservedOf(tx, clubId, seed);
    return new Map(
      lots.map((lot) => [lot.id, { ...lot, reservedMassG: reservedG.get(lot.id) ?? 0 }]),
    );
  }

  /** The lots that a body asks for in the list at `pointer`, each once, with their masses. */
  partsOf(
    held: ReadonlyMap<string, HeldLot>,
    wanted: readonly { lotId: string; massG: number }[],
    pointer: string,
  ): Part[] {
    return wanted.map(({ lotId, massG }, index) => {
      const lot = held.get(lotId.toLowerCase());
      const lotPointer = `${pointer}/${index}/lotId`;
      if (lot === undefined) throw invalidField(lotPointer, 'The club has no lot of this id.');
      if (wanted.findIndex((other) => other.lotId.toLowerCase() === lot.id) !== index) {
        throw invalidField(lotPointer, 'It stands there already: name it once, with all its mass.');
      }
      return { lot, massG, lotPointer, massPointer: `${pointer}/${index}/massKg` };
    });
  }

  refuseUnlessKind({ lot, lotPointer }: Part, kind: LotKind): void {
    if (lot.kind === kind) return;
    const detail = `“${lot.name}” is ${wordsOf[lot.kind]}; this takes ${wordsOf[kind]}.`;
    throw new Refusal('lot-unsuitable', detail, { errors: [{ pointer: lotPointer, detail }] });
  }

  /** Refuses more than the lot holds, and seed that is reserved for some batch. */
  refuseUnlessEnough({ lot, massG, massPointer }: Part): void {
    const freeMassG = lot.remainingMassG - lot.reservedMassG;
    if (massG <= freeMassG) return;
    const offers = { lotId: lot.id, remainingMassKg: kgOf(lot.remainingMassG) };
    if (massG > lot.remainingMassG) {
      const detail = `“${lot.name}” has ${kgOf(lot.remainingMassG)} kg left, not ${kgOf(massG)} kg.`;
      throw new Refusal('not-enough-mass', detail, {
        errors: [{ pointer: massPointer, detail }],
        offers,
      });
    }
    const detail = `Of the ${kgOf(lot.remainingMassG)} kg left of “${lot.name}”, ${kgOf(lot.reservedMassG)} kg are reserved for batches: ${kgOf(freeMassG)} kg are free.`;
    throw new Refusal('seed-reserved', detail, {
      errors: [{ pointer: massPointer, detail }],
      offers: {
        ...offers,
        reservedMassKg: kgOf(lot.reservedMassG),
        freeMassKg: kgOf(freeMassG),
      },
    });
  }

  /** Makes a lot out of parts of others; what its mass is less than theirs was lost in the making. Answers its id and depth. */
  async make(
    tx: Transaction,
    caller: ClubCaller,
    lot: NewLot,
    from: { kind: 'used' | 'lent'; parts: readonly Part[]; at: Date },
  ): Promise<{ id: string; depth: number }> {
    await refuseOnHold(
      tx,
      caller.clubId,
      from.parts.map(({ lot: { id } }) => id),
    );
    const inputMassG = from.parts.reduce((sum, part) => sum + part.massG, 0);
    const depth = 1 + Math.max(...from.parts.map((part) => part.lot.depth));
    const { id } = await tx.lot.create({
      data: {
        ...lot,
        clubId: caller.clubId,
        remainingMassG: lot.initialMassG,
        inputMassG,
        depth,
      },
      select: { id: true },
    });
    await tx.lotInput.createMany({
      data: from.parts.map((part) => ({
        clubId: caller.clubId,
        childId: id,
        parentId: part.lot.id,
        massG: part.massG,
        kind: from.kind,
        childInputMassG: inputMassG,
        childDepth: depth,
        parentDepth: part.lot.depth,
        at: from.at,
        recordedById: caller.memberId,
      })),
    });
    return { id, depth };
  }

  /** Takes mass out of a lot that goes into no other. Answers the movement's id. */
  async withdraw(
    tx: Transaction,
    caller: ClubCaller,
    movement: {
      lotId: string;
      kind: 'used' | 'potted' | 'lost';
      massG: number;
      at: Date;
      note: string;
    },
  ): Promise<string> {
    await refuseOnHold(tx, caller.clubId, [movement.lotId]);
    const { id } = await tx.lotMovement.create({
      data: { ...movement, clubId: caller.clubId, recordedById: caller.memberId },
      select: { id: true },
    });
    return id;
  }
}

/**
 * What is reserved of each of these lots. Read by a statement of its own once they are held: the one that waits for them would not see
 * what was reserved while it waited.
 */
async function reservedOf(
  tx: Transaction,
  clubId: string,
  lotIds: string[],
): Promise<Map<string, number>> {
  if (lotIds.length === 0) return new Map();
  const rows = await tx.$queryRaw<{ lotId: string; massG: number }[]>(Prisma.sql`
    select lot_id as "lotId", sum(mass_g)::int as "massG" from batch_seed
    where club_id = ${clubId}::uuid and lot_id = any(${lotIds}::uuid[]) and active group by lot_id`);
  return new Map(rows.map(({ lotId, massG }) => [lotId, massG]));
}

const wordsOf: Record<LotKind, string> = {
  honey: 'honey as it was brought in',
  seed: 'seed',
  creamed: 'creamed honey',
};
