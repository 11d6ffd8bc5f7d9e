import type { HeldLot, LotLedger } from '../lots/lot-ledger.service';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';

/** Draws seed from a lot into a new one of another member: name, grain and lineage follow. Answers the new lot's id. */
export async function passSeed(
  ledger: LotLedger,
  tx: Transaction,
  caller: ClubCaller,
  { lot, massG, toId, at }: { lot: HeldLot; massG: number; toId: string; at: Date },
): Promise<string> {
  const part = { lot, massG, lotPointer: '#/lotId', massPointer: '#/massKg' };
  ledger.refuseUnlessKind(part, 'seed');
  ledger.refuseUnlessEnough(part);
  const passed = {
    kind: 'seed' as const,
    name: lot.name,
    holderId: toId,
    initialMassG: massG,
    grain: lot.grain,
    batchId: null,
    note: '',
  };
  const { id } = await ledger.make(tx, caller, passed, { kind: 'lent', parts: [part], at });
  return id;
}
