import { aPlannedBatch, aSource, minutesAgo } from './lots';
import type { Service } from './service';
import { aClub, type ClubWorld } from './world';

export interface SuspectLine {
  club: ClubWorld;
  sourceId: string;
  seedId: string;
  creamedId: string;
  /** Put by from the creamed lot. */
  nextSeedId: string;
  batchPath: string;
}

/** Ada's suspect seed, the batch that it went into and is potted, and the seed put by from it. */
export async function aSuspectLine(service: Service): Promise<SuspectLine> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  const { seedId, path } = await aPlannedBatch(club.ada, club, sourceId);
  const seeded = { kind: 'seeded', at: minutesAgo(300), seed: [{ lotId: seedId, massKg: 2 }] };
  const { body } = await club.ada.post(`${path}/steps`, seeded).expect(201);
  const potted = {
    kind: 'potted',
    at: minutesAgo(240),
    pots: [{ netMassKg: 0.5, count: 10 }],
    seedPutByKg: 3,
  };
  const { body: put } = await club.ada.post(`${path}/steps`, potted).expect(201);
  return {
    club,
    sourceId,
    seedId,
    creamedId: String(body.madeLotId),
    nextSeedId: String(put.madeLotId),
    batchPath: path,
  };
}
