import fc from 'fast-check';
import type { EpcisEvent, EpcisQuantity } from '../../../src/core/epcis/epcis-event';
import { epcisDocument } from '../../../src/core/epcis/epcis-document';
import { historyEvents } from '../../../src/core/epcis/history-events';
import type { HistoryLot, LotHistory } from '../../../src/core/epcis/lot-history';
import { zoneOffset } from '../../../src/core/epcis/zone-offset';

const at = (hour: number) => new Date(Date.UTC(2026, 10, 5, hour));

function aLot(id: string, change: Partial<HistoryLot> = {}): HistoryLot {
  return {
    id,
    code: 'K7MR486',
    kind: 'honey',
    name: id,
    initialMassG: 20_000,
    batchId: null,
    origin: 'Mill',
    extractedOn: null,
    recordedAt: at(20),
    firstUsedAt: null,
    floralShares: [],
    originShares: [],
    ...change,
  };
}

const nothing = { movements: [], loans: [], temperatures: [], logged: [], pots: [] };

function aHistory(change: Partial<LotHistory>): LotHistory {
  return {
    lotId: 'c',
    clubId: 'club',
    timeZone: 'UTC',
    lots: [],
    inputs: [],
    ...nothing,
    ...change,
  };
}

const grams = (list: readonly EpcisQuantity[] = []) =>
  list.reduce((sum, { quantity }) => sum + Math.round(quantity * 1000), 0);

test('whatever was made of whatever, what went in comes out or is told to be lost, to the gram', () => {
  const masses = fc.array(fc.integer({ min: 1, max: 5_000_000 }), { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(masses, fc.double({ min: 0.001, max: 1, noNaN: true }), (massesG, part) => {
      const inputG = massesG.reduce((sum, massG) => sum + massG, 0);
      const initialMassG = Math.max(1, Math.floor(inputG * part));
      const inputs = massesG.map((massG, index) => ({
        childId: 'c',
        parentId: `h${index}`,
        massG,
        at: at(9),
      }));
      const [event] = historyEvents(
        aHistory({ lots: [aLot('c', { kind: 'creamed', initialMassG })], inputs }),
        (name) => name,
      );
      expect(event).toMatchObject({ type: 'TransformationEvent' });
      const { inputQuantityList, outputQuantityList } = event!;
      const lossG = Math.round(event!['room:lossKg']! * 1000);
      expect(grams(inputQuantityList)).toBe(inputG);
      expect(grams(outputQuantityList) + lossG).toBe(inputG);
      for (const { quantity } of [...inputQuantityList!, ...outputQuantityList!]) {
        expect(Number(quantity.toFixed(3))).toBe(quantity);
      }
    }),
  );
});

test('a lot that was recorded after it was used came in no later than its first use', () => {
  const eventsOf = (firstUsedAt: Date | null) =>
    historyEvents(aHistory({ lots: [aLot('h', { firstUsedAt })] }), (name) => name);
  expect(eventsOf(at(9))[0]).toMatchObject({
    eventTime: at(9).toISOString(),
    recordTime: at(20).toISOString(),
  });
  expect(eventsOf(at(21))[0]).toMatchObject({ eventTime: at(20).toISOString() });
  expect(eventsOf(null)[0]).toMatchObject({ eventTime: at(20).toISOString() });
});

test('events stand in the order of their times, and a lot is there before it is lent or leaves', () => {
  const history = aHistory({
    lots: [
      aLot('b', { kind: 'seed', initialMassG: 1_000 }),
      aLot('s', { kind: 'seed', firstUsedAt: at(9) }),
    ],
    inputs: [{ childId: 'b', parentId: 's', massG: 1_000, at: at(9) }],
    loans: [{ id: 'loan', toLotId: 'b', lenderId: 'ada', borrowerId: 'ben' }],
    movements: [
      { id: 'm', lotId: 'b', kind: 'lost', massG: 1, at: at(9), recordedAt: at(9) },
      { id: 'n', lotId: 's', kind: 'potted', massG: 1, at: at(8), recordedAt: at(9) },
    ],
  });
  const events = historyEvents(history, (name) => name);
  expect(events.map(({ eventID }) => eventID)).toEqual(
    ['moved n', 'made b', 'brought in s', 'lent loan', 'moved m'].map((name) => `urn:uuid:${name}`),
  );
});

test('an event never has the id of another', () => {
  const events: EpcisEvent[] = historyEvents(
    aHistory({
      lots: [aLot('x', { kind: 'seed' })],
      inputs: [{ childId: 'x', parentId: 'p', massG: 20_000, at: at(9) }],
      loans: [{ id: 'x', toLotId: 'x', lenderId: 'ada', borrowerId: 'ben' }],
      movements: [{ id: 'x', lotId: 'x', kind: 'used', massG: 5, at: at(9), recordedAt: at(9) }],
    }),
    (name) => name,
  );
  expect(new Set(events.map(({ eventID }) => eventID)).size).toBe(3);
});

test('a document is as old as the latest record in it', () => {
  const events = historyEvents(
    aHistory({ lots: [aLot('h'), aLot('i', { recordedAt: at(22), firstUsedAt: at(1) })] }),
    (name) => name,
  );
  expect(epcisDocument(events, 'urn:uuid:x', 'https://a/#').creationDate).toBe(
    at(22).toISOString(),
  );
  expect(() => epcisDocument([], 'urn:uuid:x', 'https://a/#')).toThrow(RangeError);
});

// By the rules of the European Union and of the IANA time zone database.
test.each([
  ['Europe/Vienna', '2026-03-29T00:59:59Z', '+01:00'],
  ['Europe/Vienna', '2026-03-29T01:00:00Z', '+02:00'],
  ['Europe/Vienna', '2026-10-25T00:59:59Z', '+02:00'],
  ['Europe/Vienna', '2026-10-25T01:00:00Z', '+01:00'],
  ['America/St_Johns', '2026-01-15T12:00:00Z', '-03:30'],
  ['Pacific/Kiritimati', '2026-01-15T12:00:00Z', '+14:00'],
  ['UTC', '2026-07-01T00:00:00Z', '+00:00'],
])('the clocks of %s at %s are %s from UTC', (timeZone, time, offset) => {
  expect(zoneOffset(timeZone, new Date(time))).toBe(offset);
});
