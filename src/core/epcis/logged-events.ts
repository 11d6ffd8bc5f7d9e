import { quantityOf, urnOf, type EpcisEvent, type EpcisQuantity } from './epcis-event';
import { when, type EventIdOf } from './event-when';
import type { HistoryLogged, LotHistory } from './lot-history';

/**
 * What probes read while each batch of the history was warmed, and while it set: one event a stretch once it is over, with a sensor
 * element for each probe. An event is never changed: readings that come later make another, with an id of its own.
 *
 * Source: GS1, EPCIS Standard 2.0 (ISO/IEC 19987), 7.4: sensor elements; CEL is the degree Celsius (UN/CEFACT Recommendation 20).
 */
export function loggedEvents(history: LotHistory, eventIdOf: EventIdOf): EpcisEvent[] {
  const stretches = new Map<string, [HistoryLogged, ...HistoryLogged[]]>();
  for (const logged of history.logged) {
    const key = `${logged.stretch} ${logged.batchId}`;
    const others = stretches.get(key);
    if (others === undefined) stretches.set(key, [logged]);
    else others.push(logged);
  }
  return [...stretches].flatMap(([key, all]) => {
    const [{ batchId, stretch, at }] = all;
    const quantityList = standing(history, batchId, stretch);
    if (quantityList.length === 0) return [];
    const recordedAt = new Date(Math.max(...all.map((one) => one.recordedAt.getTime())));
    const readings = all.reduce((sum, one) => sum + one.readings, 0);
    return [
      {
        type: 'ObjectEvent',
        ...when(history, at, recordedAt, eventIdOf(`${key}, ${readings} readings`)),
        action: 'OBSERVE',
        bizStep: 'sensor_reporting',
        disposition: 'in_progress',
        bizLocation: { id: urnOf(history.clubId) },
        quantityList,
        bizTransactionList: [{ type: 'prodorder', bizTransaction: urnOf(batchId) }],
        sensorElementList: all.map(sensorElement),
        'room:stretch': stretch,
      },
    ];
  });
}

/** What stood there: the honey that was warmed, or what was made of it and potted. */
function standing(
  { lots, inputs, movements }: LotHistory,
  batchId: string,
  stretch: HistoryLogged['stretch'],
): EpcisQuantity[] {
  const creamed = lots.find((lot) => lot.batchId === batchId && lot.kind === 'creamed');
  if (creamed === undefined) return [];
  if (stretch === 'setting') {
    const pottedG = movements
      .filter(({ lotId, kind }) => lotId === creamed.id && kind === 'potted')
      .reduce((sum, { massG }) => sum + massG, 0);
    return pottedG === 0 ? [] : [quantityOf(creamed.id, pottedG)];
  }
  const honey = new Set(lots.filter(({ kind }) => kind === 'honey').map(({ id }) => id));
  return inputs
    .filter(({ childId, parentId }) => childId === creamed.id && honey.has(parentId))
    .map(({ parentId, massG }) => quantityOf(parentId, massG));
}

function sensorElement(logged: HistoryLogged): object {
  const { probeId, probeIn, firstAt, lastAt, readings } = logged;
  return {
    sensorMetadata: {
      deviceID: urnOf(probeId),
      startTime: firstAt.toISOString(),
      endTime: lastAt.toISOString(),
      'room:probeIn': probeIn,
      'room:readings': readings,
    },
    sensorReport: [
      {
        type: 'Temperature',
        minValue: logged.minDeciC / 10,
        maxValue: logged.maxDeciC / 10,
        meanValue: Math.round(logged.meanDeciC * 10) / 100,
        uom: 'CEL',
      },
    ],
  };
}
