import { invalidField, Refusal } from '../core/refusal';
import type { HeldLot } from '../lots/lot-ledger.service';
import type { ClubCaller } from '../platform/caller';
import { kgOf } from '../platform/fields';

/** The lot to be corrected, the two that it is about, and what stands on record. */
export interface Mistake {
  child: HeldLot & { initialMassG: number; inputMassG: number };
  wrong: HeldLot;
  right: HeldLot | null;
  massG: number;
  /** Of the wrong lot, so much stands on record; 0: it is no input. */
  recordedG: number;
  /** The lot was given back for a loan. */
  isGivenBack: boolean;
  /** An open hold reaches the lot, or the one that really went in. */
  isOnHold: boolean;
}

/** Who may correct: the holder of the lot, with lots of their own; a steward anything; on hold only a steward. */
export function refuseOthers(caller: ClubCaller, { child, right, isOnHold }: Mistake): void {
  if (caller.role === 'steward') return;
  if (child.holderId !== caller.memberId) throw new Refusal('not-yours');
  if (right !== null && right.holderId !== caller.memberId) {
    const detail = `“${right.name}” is held by another member: a steward may correct this.`;
    throw new Refusal('not-yours', detail, { errors: [{ pointer: '#/rightLotId', detail }] });
  }
  if (isOnHold) {
    throw new Refusal('not-yours', 'Where a hold reaches, only a steward corrects what went in.');
  }
}

/** Refuses what cannot have been so. */
export function refuseImpossible(mistake: Mistake): void {
  refuseUnrecorded(mistake);
  const { child, wrong, right, massG } = mistake;
  if (right !== null) refuseUnfit(right, wrong, child);
  const leftG = child.inputMassG - massG;
  if (right === null && leftG > 0 && leftG < child.initialMassG) {
    throw new Refusal(
      'lot-unsuitable',
      `“${child.name}” began with ${kgOf(child.initialMassG)} kg: only ${kgOf(leftG)} kg would have gone in. Name the lot that did.`,
      { offers: { mostMassKg: kgOf(child.inputMassG - child.initialMassG) } },
    );
  }
}

/** Refuses what is not on record as having gone in, or not so much of it. */
export function refuseUnrecorded({ child, wrong, massG, recordedG, isGivenBack }: Mistake): void {
  if (isGivenBack) {
    const detail = `“${child.name}” was given back for a loan; that stays as it was recorded. Lend as much once more, and have the right seed given back for it.`;
    throw new Refusal('lot-unsuitable', detail, { errors: [{ pointer: '#/wrongLotId', detail }] });
  }
  if (recordedG === 0) {
    const detail = `“${wrong.name}” is not on record as used for “${child.name}”.`;
    throw new Refusal('lot-unsuitable', detail, { errors: [{ pointer: '#/wrongLotId', detail }] });
  }
  if (massG > recordedG) {
    const detail = `Of “${wrong.name}” ${kgOf(recordedG)} kg are on record, not ${kgOf(massG)} kg.`;
    throw new Refusal('not-enough-mass', detail, {
      errors: [{ pointer: '#/massKg', detail }],
      offers: { lotId: wrong.id, recordedMassKg: kgOf(recordedG) },
    });
  }
}

/** Refuses a lot that cannot have gone in where the other did. */
export function refuseUnfit(right: HeldLot, wrong: HeldLot, child: HeldLot): void {
  if (right.id === wrong.id || right.id === child.id) {
    throw invalidField('#/rightLotId', 'It is the same lot: name the one that really went in.');
  }
  if (right.kind !== wrong.kind) {
    const detail = `“${right.name}” is ${right.kind}, “${wrong.name}” is ${wrong.kind}: one goes in where the other does not.`;
    throw new Refusal('lot-unsuitable', detail, { errors: [{ pointer: '#/rightLotId', detail }] });
  }
}
