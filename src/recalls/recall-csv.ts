import { writtenLotCode } from '../core/marks/lot-code';
import { toCsv } from '../platform/csv';
import type { RecalledLotResponse, RecallResponse } from './recalls.responses';

const columns = [
  'lotId',
  'code',
  'kind',
  'name',
  'holder',
  'sharePercent',
  'suspectMassKg',
  'inLotsKg',
  'pottedKg',
  'withdrawnKg',
  'lostKg',
  'remainingMassKg',
  'places',
  'pots',
  'lentTo',
  'withdrawals',
  'onHold',
] as const;

/** The report as a table: a line for each lot. */
export function recallCsv({ items }: RecallResponse): string {
  return toCsv(items.map(lineOf), [...columns]);
}

function lineOf(lot: RecalledLotResponse): Record<(typeof columns)[number], unknown> {
  return {
    lotId: lot.lotId,
    code: writtenLotCode(lot.code),
    kind: lot.kind,
    name: lot.name,
    holder: lot.holder.name,
    sharePercent: lot.share * 100,
    suspectMassKg: lot.suspectMassKg,
    inLotsKg: lot.inLotsKg,
    pottedKg: lot.pottedKg,
    withdrawnKg: lot.withdrawnKg,
    lostKg: lot.lostKg,
    remainingMassKg: lot.remainingMassKg,
    places: placeWords(lot),
    pots: potWords(lot),
    lentTo: loanWords(lot),
    withdrawals: withdrawalWords(lot),
    onHold: lot.onHold.length > 0 ? 'yes' : 'no',
  };
}

export function placeWords({ places }: RecalledLotResponse): string {
  return places.map(({ station, places: numbers }) => `${station} ${numbers}`).join('; ');
}

export function potWords({ pots }: RecalledLotResponse): string {
  return pots.map(({ netMassKg, count }) => `${count} × ${netMassKg} kg`).join('; ');
}

export function loanWords({ lentTo }: RecalledLotResponse): string {
  return lentTo.map(({ to, massKg, at }) => `${massKg} kg to ${to} ${at.slice(0, 10)}`).join('; ');
}

export function withdrawalWords({ withdrawals }: RecalledLotResponse): string {
  return withdrawals
    .map(({ kind, massKg, at, note }) =>
      [`${massKg} kg ${kind} ${at.slice(0, 10)}`, note].filter((text) => text !== '').join(': '),
    )
    .join('; ');
}
