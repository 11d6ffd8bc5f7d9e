import { useFittingForBatch } from './seed-queries';

/** Reads which seed fits a batch before anybody asks: at the bench there may be no network. */
export function SeedAhead({ batchId }: { batchId: string }) {
  useFittingForBatch(batchId);
  return null;
}
