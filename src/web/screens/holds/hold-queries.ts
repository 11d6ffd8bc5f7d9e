import { useQuery } from '@tanstack/react-query';
import { answer, api, everyItem, pageFrom } from '../../api/client';
import { useClub } from '../../api/club';
import type { components } from '../../api/schema';

export type Hold = components['schemas']['HoldResponse'];
export type HoldSummary = components['schemas']['HoldSummary'];
export type Drill = components['schemas']['RecallDrillResponse'];
export type Recall = components['schemas']['RecallResponse'];
export type RecalledLot = components['schemas']['RecalledLotResponse'];

/** From which share and mass on a lot is listed; null: from the least. */
export interface Thresholds {
  atLeastPercent: number | null;
  atLeastG: number | null;
}

export function useHolds(open: boolean) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['holds', clubId, open],
    queryFn: () =>
      everyItem((cursor) =>
        api.GET('/api/v1/clubs/{clubId}/holds', {
          params: { path: { clubId }, query: { open, ...pageFrom(cursor) } },
        }),
      ),
  });
}

export function useHold(id: string) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['hold', clubId, id],
    queryFn: () =>
      answer(api.GET('/api/v1/clubs/{clubId}/holds/{id}', { params: { path: { clubId, id } } })),
  });
}

export function useDrills() {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['recall-drills', clubId],
    queryFn: () =>
      everyItem(
        (cursor) =>
          api.GET('/api/v1/clubs/{clubId}/recall-drills', {
            params: { path: { clubId }, query: pageFrom(cursor) },
          }),
        400,
      ),
  });
}

export function useRecall(lotId: string, thresholds: Thresholds) {
  const { clubId } = useClub();
  return useQuery({
    queryKey: ['recall', clubId, lotId, thresholds],
    queryFn: () =>
      answer(
        api.GET('/api/v1/clubs/{clubId}/lots/{id}/recall', {
          params: { path: { clubId, id: lotId }, query: given(thresholds) },
        }),
      ),
  });
}

/** The thresholds that were typed. */
export function given({ atLeastPercent, atLeastG }: Thresholds) {
  return {
    ...(atLeastPercent !== null && { atLeastPercent }),
    ...(atLeastG !== null && { atLeastG }),
  };
}
