import { quantityOf, urnOf, type EpcisEvent } from './epcis-event';
import { when, type EventIdOf } from './event-when';
import { loggedEvents } from './logged-events';
import type { HistoryInput, HistoryLot, HistoryMovement, LotHistory } from './lot-history';

/**
 * The events of a lot's history, the earliest first: how each lot came in or was made, of how much of which others and with what loss;
 * what was lent to whom; what was potted, used up and lost; what probes read. What went from an ancestor into a lot that is not in this history is told
 * in that lot's.
 */
export function historyEvents(history: LotHistory, eventIdOf: EventIdOf): EpcisEvent[] {
  const inputs = new Map<string, HistoryInput[]>();
  for (const input of history.inputs) {
    inputs.set(input.childId, [...(inputs.get(input.childId) ?? []), input]);
  }
  const events = [
    ...history.lots.map((lot) => {
      const own = inputs.get(lot.id);
      return own === undefined
        ? broughtIn(history, lot, eventIdOf)
        : made(history, lot, own, eventIdOf);
    }),
    ...history.lots.flatMap((lot) => lent(history, lot, inputs.get(lot.id) ?? [], eventIdOf)),
    ...history.movements.map((movement) => moved(history, movement, eventIdOf)),
    ...loggedEvents(history, eventIdOf),
  ];
  // Sorting keeps the order of what happened at the same time: lots are made before they are lent and leave.
  return events.sort((a, b) =>
    a.eventTime < b.eventTime ? -1 : a.eventTime > b.eventTime ? 1 : 0,
  );
}

/** The day on which a lot came in is not on record: it was no later than its record, and no later than its first use. */
function broughtIn(history: LotHistory, lot: HistoryLot, eventIdOf: EventIdOf): EpcisEvent {
  const { recordedAt, firstUsedAt } = lot;
  const at = firstUsedAt !== null && firstUsedAt < recordedAt ? firstUsedAt : recordedAt;
  return {
    type: 'ObjectEvent',
    ...when(history, at, lot.recordedAt, eventIdOf(`brought in ${lot.id}`)),
    action: 'ADD',
    bizStep: 'commissioning',
    disposition: 'active',
    bizLocation: { id: urnOf(history.clubId) },
    quantityList: [quantityOf(lot.id, lot.initialMassG)],
    ilmd: {
      ...masterData(lot),
      'room:origin': lot.origin,
      ...(lot.extractedOn !== null && { 'room:extractedOn': lot.extractedOn }),
      'room:floralShares': lot.floralShares,
      'room:originShares': lot.originShares,
    },
  };
}

function made(
  history: LotHistory,
  lot: HistoryLot,
  inputs: readonly HistoryInput[],
  eventIdOf: EventIdOf,
): EpcisEvent {
  const inputMassG = inputs.reduce((sum, { massG }) => sum + massG, 0);
  const at = latest(inputs.map((input) => input.at));
  const sensors =
    lot.kind === 'creamed'
      ? history.temperatures.filter(({ batchId }) => batchId === lot.batchId)
      : [];
  return {
    type: 'TransformationEvent',
    ...when(history, at, lot.recordedAt, eventIdOf(`made ${lot.id}`)),
    inputQuantityList: inputs.map(({ parentId, massG }) => quantityOf(parentId, massG)),
    outputQuantityList: [quantityOf(lot.id, lot.initialMassG)],
    bizStep: 'commissioning',
    disposition: lot.kind === 'creamed' ? 'in_progress' : 'active',
    bizLocation: { id: urnOf(history.clubId) },
    ...(lot.batchId !== null && {
      bizTransactionList: [{ type: 'prodorder', bizTransaction: urnOf(lot.batchId) }],
    }),
    ...(sensors.length > 0 && {
      sensorElementList: sensors.map((sensor) => ({
        sensorMetadata: { time: sensor.at.toISOString() },
        sensorReport: [{ type: 'Temperature', value: sensor.deciC / 10, uom: 'CEL' }],
      })),
    }),
    ilmd: masterData(lot),
    'room:lossKg': (inputMassG - lot.initialMassG) / 1000,
  };
}

/** A loan makes a lot out of the lender's, and the borrower receives it. */
function lent(
  history: LotHistory,
  lot: HistoryLot,
  inputs: readonly HistoryInput[],
  eventIdOf: EventIdOf,
): EpcisEvent[] {
  return history.loans
    .filter(({ toLotId }) => toLotId === lot.id)
    .map(({ id, lenderId, borrowerId }) => ({
      type: 'ObjectEvent',
      ...when(history, latest(inputs.map(({ at }) => at)), lot.recordedAt, eventIdOf(`lent ${id}`)),
      action: 'OBSERVE',
      bizStep: 'receiving',
      disposition: 'active',
      bizLocation: { id: urnOf(history.clubId) },
      quantityList: [quantityOf(lot.id, lot.initialMassG)],
      bizTransactionList: [{ bizTransaction: urnOf(id) }],
      sourceList: [{ type: 'possessing_party', source: urnOf(lenderId) }],
      destinationList: [{ type: 'possessing_party', destination: urnOf(borrowerId) }],
    }));
}

const STEP_OF_MOVEMENT = {
  // Still there, in pots that carry the lot's mark.
  potted: { action: 'OBSERVE', bizStep: 'packing', disposition: 'container_closed' },
  used: { action: 'DELETE', bizStep: 'dispensing', disposition: 'dispensed' },
  lost: { action: 'DELETE', bizStep: 'destroying', disposition: 'destroyed' },
} as const;

function moved(
  history: LotHistory,
  { id, lotId, kind, massG, at, recordedAt }: HistoryMovement,
  eventIdOf: EventIdOf,
): EpcisEvent {
  const batchId = history.lots.find((lot) => lot.id === lotId)?.batchId ?? null;
  const pots = history.pots
    .filter((size) => size.batchId === batchId)
    .map(({ netMassG, count }) => ({ netMassKg: netMassG / 1000, count }));
  const pottedG = pots.reduce(
    (sum, { netMassKg, count }) => sum + Math.round(netMassKg * 1000) * count,
    0,
  );
  return {
    type: 'ObjectEvent',
    ...when(history, at, recordedAt, eventIdOf(`moved ${id}`)),
    ...STEP_OF_MOVEMENT[kind],
    bizLocation: { id: urnOf(history.clubId) },
    quantityList: [quantityOf(lotId, massG)],
    ...(kind === 'potted' && pottedG === massG && { 'room:pots': pots }),
  };
}

function masterData({ code, kind, name }: HistoryLot): Record<string, string> {
  return { 'room:lotCode': code, 'room:lotKind': kind, 'room:lotName': name };
}

function latest(times: readonly Date[]): Date {
  return new Date(Math.max(...times.map((time) => time.getTime())));
}
