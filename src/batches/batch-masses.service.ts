import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { LotLedger, type Part } from '../lots/lot-ledger.service';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { gramsOf, kgOf } from '../platform/fields';
import { refuseHoneyOfOthers, replaceHoney } from './batch-honey';
import { letSeedGo, refuseSeedOfOthers, reservedSeed } from './batch-seed';
import type { LotMassRequest, StepRequest } from './batches.requests';
import type { HeldBatch } from './held-batch';

/** Of a part that no field of the body asks for. */
const nowhere = { lotPointer: '#', massPointer: '#' };

/** Moves the masses that go with a step. */
@Injectable()
export class BatchMasses {
  constructor(private readonly ledger: LotLedger) {}

  /** Honey and seed become one creamed lot. What of the reserved seed does not go in is free again. */
  async stirIn(
    tx: Transaction,
    caller: ClubCaller,
    batch: HeldBatch,
    request: StepRequest,
  ): Promise<void> {
    const { clubId } = caller;
    const planned = await tx.batchHoney.findMany({ where: { clubId, batchId: batch.id } });
    const wantedHoney = request.honey === undefined ? planned : gramsOfEach(request.honey);
    const reserved = await reservedSeed(tx, clubId, batch.id);
    const wantedSeed = request.seed === undefined ? reserved : gramsOfEach(request.seed);
    if (wantedSeed.length === 0) {
      throw invalidField('#', 'seed must name at least one lot of seed: none is reserved for it.');
    }
    if (reserved.length > 0) await letSeedGo(tx, clubId, batch.id);
    const held = await this.ledger.hold(
      tx,
      clubId,
      [...wantedHoney, ...wantedSeed].map(({ lotId }) => lotId),
    );
    const honey =
      request.honey === undefined
        ? this.ledger.partsOf(held, planned, '#').map((part) => ({ ...part, ...nowhere }))
        : this.ledger.partsOf(held, wantedHoney, '#/honey');
    const seed =
      request.seed === undefined
        ? this.ledger.partsOf(held, reserved, '#').map((part) => ({ ...part, ...nowhere }))
        : this.ledger.partsOf(held, wantedSeed, '#/seed');

    const plannedG = new Map(planned.map(({ lotId, massG }) => [lotId, massG]));
    for (const part of honey) {
      this.ledger.refuseUnlessKind(part, 'honey');
      refuseHoneyOfOthers(caller, part, plannedG);
      this.ledger.refuseUnlessEnough(part);
    }
    for (const part of seed) {
      this.ledger.refuseUnlessKind(part, 'seed');
      refuseSeedOfOthers(batch.memberId, part);
      this.ledger.refuseUnlessEnough(part);
    }
    const inputMassG = sumG([...honey, ...seed]);
    const lossG = gramsOf(request.lossKg ?? 0);
    if (lossG >= inputMassG) {
      throw invalidField('#/lossKg', `Only ${kgOf(inputMassG)} kg went in: not all can be lost.`);
    }

    const lot = {
      kind: 'creamed' as const,
      name: batch.name,
      holderId: batch.memberId,
      initialMassG: inputMassG - lossG,
      grain: null,
      batchId: batch.id,
      note: '',
    };
    const from = { kind: 'used' as const, parts: [...honey, ...seed], at: request.at };
    await this.ledger.make(tx, caller, lot, from);
    if (request.honey !== undefined) await replaceHoney(tx, clubId, batch.id, honey);
  }

  /** Creamed honey goes into pots; some is put by as seed, some is lost, and the rest stays in the creamed lot. */
  async pot(
    tx: Transaction,
    caller: ClubCaller,
    batch: HeldBatch,
    request: StepRequest,
  ): Promise<void> {
    const { clubId } = caller;
    const { at, note = '', seedGrain = null, seedName = seedNameOf(batch) } = request;
    const made = await tx.lot.findFirst({
      where: { clubId, batchId: batch.id, kind: 'creamed' },
      select: { id: true },
    });
    const lot = made && (await this.ledger.hold(tx, clubId, [made.id])).get(made.id);
    if (lot === undefined || lot === null) throw new Refusal('not-found');
    const pots = (request.pots ?? []).map(({ netMassKg, count }) => ({
      netMassG: gramsOf(netMassKg),
      count,
    }));
    const pottedG = pots.reduce((sum, { netMassG, count }) => sum + netMassG * count, 0);
    const seedG = gramsOf(request.seedPutByKg ?? 0);
    const lossG = gramsOf(request.lossKg ?? 0);
    const massG = pottedG + seedG + lossG;
    this.ledger.refuseUnlessEnough({ lot, massG, lotPointer: '#', massPointer: '#/pots' });

    await tx.batchPots.createMany({
      data: pots.map((size) => ({ clubId, batchId: batch.id, ...size })),
    });
    const movement = { lotId: lot.id, at, note };
    await this.ledger.withdraw(tx, caller, { ...movement, kind: 'potted', massG: pottedG });
    if (seedG > 0) {
      const seed = {
        kind: 'seed' as const,
        name: seedName,
        holderId: lot.holderId,
        initialMassG: seedG,
        grain: seedGrain,
        batchId: batch.id,
        note: '',
      };
      const parts = [{ lot, massG: seedG, ...nowhere }];
      await this.ledger.make(tx, caller, seed, { kind: 'used', parts, at });
    }
    if (lossG > 0)
      await this.ledger.withdraw(tx, caller, { ...movement, kind: 'lost', massG: lossG });
  }
}

function gramsOfEach(wanted: readonly LotMassRequest[]): { lotId: string; massG: number }[] {
  return wanted.map(({ lotId, massKg }) => ({ lotId, massG: gramsOf(massKg) }));
}

function sumG(parts: readonly Part[]): number {
  return parts.reduce((sum, { massG }) => sum + massG, 0);
}

function seedNameOf({ name }: HeldBatch): string {
  return Array.from(`Seed of ${name}`).slice(0, 120).join('');
}
