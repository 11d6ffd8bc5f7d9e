import { randomUUID } from 'node:crypto';
import type { SettingObservation } from '../../src/core/setting/observation';
import type { Service } from './service';

const dayMs = 86_400_000;

/**
 * Batches of 20 kg of honey and 2 kg of seed, written straight into the database: seeded one a day from `from` on, and looked at so
 * that of each is known what is given, in days.
 */
export async function seededBatches(
  service: Service,
  club: { clubId: string; memberId: string; sourceId: string; from: Date },
  observations: readonly SettingObservation[],
): Promise<void> {
  const { clubId, memberId, sourceId } = club;
  const batches = observations.map((observation, index) => ({
    ...observation,
    seededAt: new Date(club.from.getTime() + index * dayMs),
    batchId: randomUUID(),
    honeyId: randomUUID(),
    seedId: randomUUID(),
    creamedId: randomUUID(),
  }));
  const whole = { clubId, name: 'lot', holderId: memberId };
  await service.prisma.$transaction(async (tx) => {
    await tx.batch.createMany({
      data: batches.map(({ batchId }) => ({ clubId, id: batchId, name: 'batch', memberId })),
    });
    await tx.lot.createMany({
      data: batches.flatMap(({ batchId, honeyId, seedId, creamedId }) => [
        { ...whole, id: honeyId, kind: 'honey', initialMassG: 20_000, remainingMassG: 20_000 },
        { ...whole, id: seedId, kind: 'seed', initialMassG: 2_000, remainingMassG: 2_000 },
        {
          ...whole,
          id: creamedId,
          kind: 'creamed',
          initialMassG: 22_000,
          remainingMassG: 22_000,
          inputMassG: 22_000,
          depth: 1,
          batchId,
        },
      ]),
    });
    await tx.lotFloralShare.createMany({
      data: batches.map(({ honeyId }) => ({
        clubId,
        lotId: honeyId,
        floralSourceId: sourceId,
        centiPercent: 10_000,
      })),
    });
    await tx.lotInput.createMany({
      data: batches.flatMap(({ creamedId, honeyId, seedId, seededAt }) =>
        [
          { parentId: honeyId, massG: 20_000 },
          { parentId: seedId, massG: 2_000 },
        ].map((input) => ({
          ...input,
          clubId,
          childId: creamedId,
          childInputMassG: 22_000,
          childDepth: 1,
          parentDepth: 0,
          at: seededAt,
          recordedById: memberId,
        })),
      ),
    });
    await tx.batchStep.createMany({
      data: batches.map(({ batchId, seededAt }) => ({
        clubId,
        batchId,
        kind: 'seeded',
        at: seededAt,
        recordedById: memberId,
      })),
    });
    await tx.settingCheck.createMany({
      data: batches.flatMap(({ batchId, seededAt, lower, upper }) => {
        const look = (days: number, state: 'liquid' | 'set') => ({
          clubId,
          batchId,
          at: new Date(seededAt.getTime() + days * dayMs),
          state,
          checkedById: memberId,
        });
        return [
          ...(lower > 0 ? [look(lower, 'liquid')] : []),
          ...(upper === null ? [] : [look(upper, 'set')]),
        ];
      }),
    });
  });
}
