import type { OverstayRow } from './overstay-rows';
import type { OverstayBatch, OverstayResponse } from './overstays.responses';
import type { wayOut } from './way-out';

export function toOverstayResponse(
  row: OverstayRow,
  likelyUntil: Date | null,
  { longestExtension, otherPlaces }: ReturnType<typeof wayOut>,
): OverstayResponse {
  return {
    bookingId: row.bookingId,
    stationId: row.stationId,
    stationName: row.stationName,
    duty: row.duty,
    memberId: row.memberId,
    memberName: row.memberName,
    places: row.places,
    arrivedAt: row.arrivedAt.toISOString(),
    since: row.endsAt.toISOString(),
    batch: batchOf(row, likelyUntil),
    next: row.next,
    longestExtension: longestExtension === null ? null : new Date(longestExtension).toISOString(),
    otherPlaces,
  };
}

function batchOf(
  { batchId, batchName, stage, setAt }: OverstayRow,
  likelyUntil: Date | null,
): OverstayBatch | null {
  if (batchId === null || batchName === null || stage === null) return null;
  return {
    id: batchId,
    name: batchName,
    stage,
    setAt: setAt?.toISOString() ?? null,
    likelyUntil: likelyUntil?.toISOString() ?? null,
  };
}
