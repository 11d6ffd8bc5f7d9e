import { ALL, NONE, type Share } from '../core/lineage/share';
import { descendantShares } from '../core/lineage/shares';
import { whereabouts, type Whereabouts } from '../core/lineage/whereabouts';
import { sharesOf, shareInKg } from '../lots/written-share';
import { kgOf } from '../platform/fields';
import type { RecalledLot, RecallRow } from './recall-rows';
import type { RecallQuery } from './recalls.requests';
import type {
  RecalledLotResponse,
  RecallMasses,
  RecallResponse,
  RecallTotals,
} from './recalls.responses';

const PERCENT_DECIMALS = 1_000_000;

/** The report on a suspect lot: every lot that it is in, and where all of it went. */
export function recallReport(
  { lots, edges }: RecallRow,
  suspect: RecalledLot,
  { atLeastPercent = 0, atLeastG = 0 }: RecallQuery,
): RecallResponse {
  const shares = descendantShares(edges, suspect.lotId);
  const shareOf = (lotId: string): Share =>
    lotId === suspect.lotId ? ALL : (shares.get(lotId)?.share ?? NONE);
  const places = whereabouts(suspect.lotId, lots, edges, shareOf);

  const isListed = ({ lotId, initialMassG }: RecalledLot): boolean => {
    const { numerator, denominator } = shareOf(lotId);
    const isShareEnough =
      numerator * BigInt(100 * PERCENT_DECIMALS) >=
      BigInt(Math.round(atLeastPercent * PERCENT_DECIMALS)) * denominator;
    return isShareEnough && numerator * BigInt(initialMassG) >= BigInt(atLeastG) * denominator;
  };
  const listed = lots.filter((lot) => lot === suspect || isListed(lot));
  const shown = new Set(listed);
  const totals = (some: readonly RecalledLot[]) => totalsOf(some, places);
  return {
    lotId: suspect.lotId,
    name: suspect.name,
    initialMassKg: kgOf(suspect.initialMassG),
    totals: totals(lots),
    notListed: totals(lots.filter((lot) => !shown.has(lot))),
    items: listed.map((lot) => itemOf(lot, shareOf(lot.lotId), places.get(lot.lotId))),
  };
}

const nowhere: Whereabouts = { inLotG: 0, pottedG: 0, withdrawnG: 0, lostG: 0 };

function totalsOf(
  lots: readonly RecalledLot[],
  places: ReadonlyMap<string, Whereabouts>,
): RecallTotals {
  const sum = { ...nowhere };
  for (const { lotId } of lots) {
    const place = places.get(lotId) ?? nowhere;
    sum.inLotG += place.inLotG;
    sum.pottedG += place.pottedG;
    sum.withdrawnG += place.withdrawnG;
    sum.lostG += place.lostG;
  }
  const holders = new Set(lots.map(({ holderId }) => holderId)).size;
  return { ...massesOf(sum), lots: lots.length, holders };
}

type Masses = Pick<RecallMasses, keyof RecallMasses>;

function massesOf({ inLotG, pottedG, withdrawnG, lostG }: Whereabouts): Masses {
  return {
    foundKg: kgOf(inLotG + pottedG + withdrawnG + lostG),
    inLotsKg: kgOf(inLotG),
    pottedKg: kgOf(pottedG),
    withdrawnKg: kgOf(withdrawnG),
    lostKg: kgOf(lostG),
  };
}

function itemOf(lot: RecalledLot, share: Share, place = nowhere): RecalledLotResponse {
  return {
    lotId: lot.lotId,
    code: lot.code,
    kind: lot.kind,
    name: lot.name,
    holder: { id: lot.holderId, name: lot.holderName },
    ...sharesOf(share),
    suspectMassKg: shareInKg(share, lot.initialMassG),
    ...massesOf(place),
    remainingMassKg: kgOf(lot.remainingMassG),
    places: lot.places.map(({ stationName, numbers, endsAt }) => ({
      station: stationName,
      places: numbers.join(', '),
      until: new Date(endsAt).toISOString(),
    })),
    pots: lot.pots.map(({ netMassG, count }) => ({ netMassKg: kgOf(netMassG), count })),
    lentTo: lot.loans.map(({ borrowerName, lotId, massG, at }) => ({
      to: borrowerName,
      lotId,
      massKg: kgOf(massG),
      at: new Date(at).toISOString(),
    })),
    withdrawals: lot.withdrawals.map(({ kind, massG, at, note }) => ({
      kind: kind as 'used' | 'potted' | 'lost',
      massKg: kgOf(massG),
      at: new Date(at).toISOString(),
      note,
    })),
    onHold: lot.onHold,
  };
}
