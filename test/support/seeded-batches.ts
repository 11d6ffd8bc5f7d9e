import { randomUUID } from 'node:crypto';
import type { SettingObservation } from '../../src/core/setting/observation';
import type { Transaction } from '../../src/platform/database';
import type { Service } from './service';

const dayMs = 86_400_000;

/** What of a batch is to be other than usual. */
export interface BatchWishes {
  sourceId?: string;
  honeyMassG?: number;
  seedMassG?: number;
  moistureCentiPercent?: number;
  /** Of a cool room of its own, booked for it at just that temperature. */
  coolRoomDeciC?: number;
}

/**
 * Batches of 20 kg of honey and 2 kg of seed, unless wished otherwise, written straight into the database: seeded one a day from `from`
 * on, and looked at so that of each is known what is given, in days.
 */
export async function seededBatches(
  service: Service,
  club: { clubId: string; memberId: string; sourceId: string; from: Date },
  observations: readonly (SettingObservation & BatchWishes)[],
): Promise<void> {
  const { clubId, memberId, sourceId } = club;
  const batches = observations.map((observation, index) => ({
    honeyMassG: 20_000,
    seedMassG: 2_000,
    ...observation,
    seededAt: new Date(club.from.getTime() + index * dayMs),
    batchId: randomUUID(),
    honeyId: randomUUID(),
    seedId: randomUUID(),
    creamedId: randomUUID(),
    stationId: randomUUID(),
  }));
  const whole = { clubId, name: 'lot', holderId: memberId };
  await service.prisma.$transaction((tx) => write(tx), { timeout: 60_000 });
  async function write(tx: Transaction): Promise<void> {
    await tx.batch.createMany({
      data: batches.map(({ batchId }) => ({ clubId, id: batchId, name: 'batch', memberId })),
    });
    await tx.lot.createMany({
      data: batches.flatMap(({ honeyMassG, seedMassG, ...batch }) => [
        {
          ...whole,
          id: batch.honeyId,
          kind: 'honey',
          ...wholeMass(honeyMassG),
          moistureCentiPercent: batch.moistureCentiPercent ?? null,
        },
        { ...whole, id: batch.seedId, kind: 'seed', ...wholeMass(seedMassG) },
        {
          ...whole,
          id: batch.creamedId,
          kind: 'creamed',
          ...wholeMass(honeyMassG + seedMassG),
          inputMassG: honeyMassG + seedMassG,
          depth: 1,
          batchId: batch.batchId,
        },
      ]),
    });
    await tx.lotFloralShare.createMany({
      data: batches.map((batch) => ({
        clubId,
        lotId: batch.honeyId,
        floralSourceId: batch.sourceId ?? sourceId,
        centiPercent: 10_000,
      })),
    });
    await tx.lotInput.createMany({
      data: batches.flatMap(({ creamedId, honeyId, seedId, honeyMassG, seedMassG, seededAt }) =>
        [
          { parentId: honeyId, massG: honeyMassG },
          { parentId: seedId, massG: seedMassG },
        ].map((input) => ({
          ...input,
          clubId,
          childId: creamedId,
          childInputMassG: honeyMassG + seedMassG,
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
    await bookCoolRooms(tx, clubId, memberId, batches);
  }
}

function wholeMass(massG: number) {
  return { initialMassG: massG, remainingMassG: massG };
}

async function bookCoolRooms(
  tx: Transaction,
  clubId: string,
  memberId: string,
  batches: readonly (BatchWishes & { batchId: string; stationId: string; seededAt: Date })[],
): Promise<void> {
  const rooms = batches.flatMap(({ coolRoomDeciC, ...batch }) =>
    coolRoomDeciC === undefined
      ? []
      : [{ ...batch, band: { minDeciC: coolRoomDeciC, maxDeciC: coolRoomDeciC } }],
  );
  await tx.station.createMany({
    data: rooms.map(({ stationId }) => ({
      clubId,
      id: stationId,
      name: `Cool room ${stationId}`,
      placeLoadG: 200_000,
      changeoverMinutes: 0,
    })),
  });
  await tx.stationDuty.createMany({
    data: rooms.map(({ stationId, band }) => ({ clubId, stationId, duty: 'cool', ...band })),
  });
  await tx.booking.createMany({
    data: rooms.map(({ stationId, batchId, seededAt, band }) => ({
      clubId,
      stationId,
      duty: 'cool',
      memberId,
      batchId,
      ...band,
      startsAt: seededAt,
      endsAt: new Date(seededAt.getTime() + 90 * dayMs),
      changeoverMinutes: 0,
    })),
  });
}
