import { randomUUID } from 'node:crypto';
import type { Service } from './service';

export interface SeedLineLots {
  firstSeedId: string;
  /** The seed put by last. */
  lastSeedId: string;
  count: number;
}

/**
 * A line of batches written straight into the database, each of 20 kg of new honey and 2 kg of the seed before it, with 2.5 kg put
 * by as the next seed: three lots a batch, and the first seed.
 */
export async function aSeedLine(
  service: Service,
  clubId: string,
  memberId: string,
  sourceId: string,
  batchCount: number,
): Promise<SeedLineLots> {
  const ids = (count: number) => Array.from({ length: count }, () => randomUUID());
  const [honey, creamed, seed] = [ids(batchCount), ids(batchCount), ids(batchCount + 1)];
  await service.prisma.$transaction(
    async (tx) => {
      const lot = (id: string, kind: string, massG: number, inputMassG: number, depth: number) => ({
        clubId,
        id,
        kind: kind as 'honey' | 'seed' | 'creamed',
        name: `${kind} at depth ${depth}`,
        holderId: memberId,
        initialMassG: massG,
        remainingMassG: massG,
        inputMassG,
        depth,
      });
      await tx.lot.createMany({
        data: [
          lot(seed[0]!, 'seed', 2_500, 0, 0),
          ...honey.map((id) => lot(id, 'honey', 20_000, 0, 0)),
          ...creamed.map((id, index) =>
            lot(id, 'creamed', 21_900, 22_000 + (index % 7), 2 * index + 1),
          ),
          ...seed.slice(1).map((id, index) => lot(id, 'seed', 2_500, 2_500, 2 * index + 2)),
        ],
      });
      await tx.lotFloralShare.createMany({
        data: [seed[0]!, ...honey].map((lotId) => ({
          clubId,
          lotId,
          floralSourceId: sourceId,
          centiPercent: 10_000,
        })),
      });
      await tx.lotOriginShare.createMany({
        data: [seed[0]!, ...honey].map((lotId, index) => ({
          clubId,
          lotId,
          countryCode: index === 0 ? 'SI' : 'AT',
          centiPercent: 10_000,
        })),
      });
      const input = (
        childId: string,
        parentId: string,
        massG: number,
        childInputMassG: number,
        childDepth: number,
        parentDepth: number,
      ) => ({
        clubId,
        childId,
        parentId,
        massG,
        childInputMassG,
        childDepth,
        parentDepth,
        at: new Date(),
        recordedById: memberId,
      });
      await tx.lotInput.createMany({
        data: creamed.flatMap((id, index) => {
          const [depth, whole] = [2 * index + 1, 22_000 + (index % 7)];
          return [
            input(id, honey[index]!, 20_000, whole, depth, 0),
            input(id, seed[index]!, 2_000 + (index % 7), whole, depth, depth - 1),
            input(seed[index + 1]!, id, 2_500, 2_500, depth + 1, depth),
          ];
        }),
      });
    },
    { timeout: 30_000 },
  );
  return { firstSeedId: seed[0]!, lastSeedId: seed.at(-1)!, count: 3 * batchCount + 1 };
}
