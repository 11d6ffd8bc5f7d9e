import { readFileSync } from 'node:fs';
import Ajv from 'ajv';
import addFormats from 'ajv-formats';
import { nameUuid } from '../../src/traces/name-uuid';
import { aLot, aPlannedBatch, aSource, minutesAgo } from '../support/lots';
import { aCabinet } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor } from '../support/world';

const service = useService({ PUBLIC_URL: 'https://honey.example.org' });

interface Quantity {
  epcClass: string;
  quantity: number;
  uom: string;
}

interface Event {
  type: string;
  eventID: string;
  eventTime: string;
  eventTimeZoneOffset: string;
  bizStep: string;
  action?: string;
  quantityList?: Quantity[];
  inputQuantityList?: Quantity[];
  outputQuantityList?: Quantity[];
  'room:lossKg'?: number;
  [more: string]: unknown;
}

async function documentOf(actor: Actor, lot: string) {
  const { body, headers } = await actor.get(`${lot}/epcis.jsonld`).expect(200);
  expect(headers['content-type']).toMatch(/^application\/ld\+json/);
  return body as { creationDate: string; epcisBody: { eventList: Event[] } };
}

/** Honey and lent seed, creamed with a loss, potted, with seed put by; some of it lost and used up. */
async function aStory() {
  const club = await aClub(service);
  const { ada, ben, path } = club;
  const source = await aSource(service, club.clubId, 'Lime');
  const batch = await aPlannedBatch(ben, club, source, 18);
  const adasSeed = await aLot(ada, club, source, { kind: 'seed', massKg: 5 });
  const loan = await ada
    .post(`${path}/loans`, {
      lotId: adasSeed,
      borrowerId: ben.memberId,
      massKg: 2,
      at: minutesAgo(200),
    })
    .expect(201);
  const lentSeed = String(loan.body.toLot.id);
  await ben
    .post(`${batch.path}/steps`, { kind: 'loaded', at: minutesAgo(190), temperatureC: 16.5 })
    .expect(201);
  await ben
    .post(`${batch.path}/steps`, {
      kind: 'seeded',
      at: minutesAgo(90),
      temperatureC: 24,
      seed: [{ lotId: lentSeed, massKg: 1.8 }],
      lossKg: 0.123,
    })
    .expect(201);
  const potted = await ben
    .post(`${batch.path}/steps`, {
      kind: 'potted',
      at: minutesAgo(60),
      pots: [{ netMassKg: 0.5, count: 20 }],
      seedPutByKg: 3,
      lossKg: 0.2,
    })
    .expect(201);
  const nextSeed = String(potted.body.madeLotId);
  await ben
    .post(`${path}/lots/${nextSeed}/withdrawals`, { kind: 'used', massKg: 0.25, at: minutesAgo(5) })
    .expect(201);
  return { ...club, batch, adasSeed, lentSeed, nextSeed, loanId: String(loan.body.id) };
}

test('the whole history of a lot: brought in, lent, creamed, potted, put by, used, each with its mass', async () => {
  const { ben, ada, path, batch, adasSeed, lentSeed, nextSeed, loanId } = await aStory();
  const { epcisBody } = await documentOf(ben, `${path}/lots/${nextSeed}`);
  const { eventList } = epcisBody;
  const urn = (id: string) => `urn:uuid:${id}`;

  expect(eventList.filter(({ action }) => action === 'ADD')).toHaveLength(2);
  const creaming = eventList.find(({ inputQuantityList }) => inputQuantityList?.length === 2)!;
  expect(creaming).toMatchObject({
    type: 'TransformationEvent',
    outputQuantityList: [{ quantity: 19.677, uom: 'KGM' }],
    'room:lossKg': 0.123,
    bizTransactionList: [{ type: 'prodorder', bizTransaction: urn(batch.batchId) }],
    sensorElementList: [
      { sensorReport: [{ type: 'Temperature', value: 16.5, uom: 'CEL' }] },
      { sensorReport: [{ type: 'Temperature', value: 24, uom: 'CEL' }] },
    ],
  });
  expect(creaming.inputQuantityList).toEqual(
    expect.arrayContaining([
      { epcClass: urn(batch.honeyId), quantity: 18, uom: 'KGM' },
      { epcClass: urn(lentSeed), quantity: 1.8, uom: 'KGM' },
    ]),
  );
  expect(eventList).toContainEqual(
    expect.objectContaining({
      type: 'TransformationEvent',
      inputQuantityList: [{ epcClass: urn(adasSeed), quantity: 2, uom: 'KGM' }],
      outputQuantityList: [{ epcClass: urn(lentSeed), quantity: 2, uom: 'KGM' }],
      'room:lossKg': 0,
    }),
  );
  expect(eventList).toContainEqual(
    expect.objectContaining({
      type: 'ObjectEvent',
      action: 'OBSERVE',
      bizStep: 'receiving',
      bizTransactionList: [{ bizTransaction: urn(loanId) }],
      sourceList: [{ type: 'possessing_party', source: urn(ada.memberId) }],
      destinationList: [{ type: 'possessing_party', destination: urn(ben.memberId) }],
    }),
  );
  const moved = eventList
    .filter(({ bizStep }) => ['packing', 'dispensing', 'destroying'].includes(bizStep))
    .map(({ bizStep, action, quantityList }) => [bizStep, action, quantityList![0]!.quantity]);
  expect(moved.sort()).toEqual([
    ['destroying', 'DELETE', 0.2],
    ['dispensing', 'DELETE', 0.25],
    ['packing', 'OBSERVE', 10],
  ]);
  expect(eventList.find(({ bizStep }) => bizStep === 'packing')).toMatchObject({
    'room:pots': [{ netMassKg: 0.5, count: 20 }],
  });
});

test('what comes out and what is lost is what went in, and nothing leaves before it is there', async () => {
  const { ben, path, nextSeed } = await aStory();
  const { epcisBody } = await documentOf(ben, `${path}/lots/${nextSeed}`);
  const sum = (list: Quantity[] = []) =>
    list.reduce((total, { quantity }) => total + Math.round(quantity * 1000), 0);
  const there = new Set<string>();
  for (const event of epcisBody.eventList) {
    const taken = [
      ...(event.inputQuantityList ?? []),
      ...(event.action === 'ADD' ? [] : (event.quantityList ?? [])),
    ];
    for (const { epcClass } of taken)
      expect([event.bizStep, there.has(epcClass)]).toEqual([event.bizStep, true]);
    const come = event.action === 'ADD' ? event.quantityList : event.outputQuantityList;
    for (const { epcClass } of come ?? []) there.add(epcClass);
    if (event.type !== 'TransformationEvent') continue;
    const lossG = Math.round(event['room:lossKg']! * 1000);
    expect(sum(event.outputQuantityList) + lossG).toBe(sum(event.inputQuantityList));
  }
});

test('it is the same document until something more is recorded, and event ids stay', async () => {
  const { ben, path, nextSeed, clubId } = await aStory();
  const lot = `${path}/lots/${nextSeed}`;
  const before = await documentOf(ben, lot);
  expect(await documentOf(ben, lot)).toEqual(before);
  await ben
    .post(`${lot}/withdrawals`, { kind: 'lost', massKg: 0.1, at: minutesAgo(1) })
    .expect(201);
  const after = await documentOf(ben, lot);
  expect(after.creationDate > before.creationDate).toBe(true);
  const ids = after.epcisBody.eventList.map(({ eventID }) => eventID);
  expect(new Set(ids).size).toBe(before.epcisBody.eventList.length + 1);
  expect(ids).toEqual(
    expect.arrayContaining(before.epcisBody.eventList.map(({ eventID }) => eventID)),
  );
  expect(ids).toContain(`urn:uuid:${nameUuid(clubId, `made ${nextSeed}`)}`);
});

test('each event tells what the club’s clocks showed then, summer time included', async () => {
  const { ada, clubId, path } = await aClub(service);
  const source = await aSource(service, clubId);
  const lot = await aLot(ada, { path }, source);
  for (const at of ['2026-03-29T00:30:00Z', '2026-03-29T01:30:00Z']) {
    await ada
      .post(`${path}/lots/${lot}/withdrawals`, { kind: 'lost', massKg: 0.1, at })
      .expect(201);
  }
  const { epcisBody } = await documentOf(ada, `${path}/lots/${lot}`);
  expect(
    epcisBody.eventList.map(({ bizStep, eventTimeZoneOffset }) => [bizStep, eventTimeZoneOffset]),
  ).toEqual([
    ['commissioning', '+01:00'],
    ['destroying', '+01:00'],
    ['destroying', '+02:00'],
  ]);
});

/** A batch with a probe in its honey throughout, and another in the cabinet that it was warmed in; found set a minute ago. */
async function aLoggedStory() {
  const club = await aClub(service);
  const { ada, steward, path } = club;
  const source = await aSource(service, club.clubId, 'Lime');
  const stationId = await aCabinet(club);
  const batch = await aPlannedBatch(ada, club, source, 18);
  const aProbe = async (place: object) => {
    const named = { name: `Probe in ${Object.keys(place).join()}`, placedAt: minutesAgo(400) };
    const { body } = await ada.post(`${path}/probes`, { ...named, ...place }).expect(201);
    return String(body.id);
  };
  const inHoney = await aProbe({ batchId: batch.batchId });
  const inCabinet = await aProbe({ stationId });
  const warm = {
    stationId,
    duty: 'warm',
    minC: 40,
    maxC: 44,
    places: 1,
    batchId: batch.batchId,
    memberId: ada.memberId,
  };
  const minute = (minutes: number) => `${minutesAgo(minutes).slice(0, 16)}:00Z`;
  const booked = { ...warm, startsAt: minute(300), endsAt: minute(250) };
  await steward.post(`${path}/bookings`, booked).expect(201);
  const read = (probeId: string, pairs: [minutes: number, temperatureC: number][]) =>
    ada
      .post(`${path}/probes/${probeId}/readings`, {
        readings: pairs.map(([minutes, temperatureC]) => ({
          at: minutesAgo(minutes),
          temperatureC,
        })),
      })
      .expect(200);
  const seed = [{ lotId: batch.seedId, massKg: 2 }];
  for (const step of [
    { kind: 'loaded', at: minutesAgo(300) },
    { kind: 'cleared', at: minutesAgo(240) },
    { kind: 'seeded', at: minutesAgo(200), seed },
    { kind: 'potted', at: minutesAgo(180), pots: [{ netMassKg: 0.5, count: 30 }] },
  ]) {
    await ada.post(`${batch.path}/steps`, step).expect(201);
  }
  await ada.post(`${batch.path}/setting-checks`, { at: minutesAgo(1), state: 'set' }).expect(201);
  // Before it was loaded, while it was warmed, in between, and while it set.
  await read(inHoney, [
    [310, 9],
    [290, 20],
    [244, 41.5],
    [220, 35],
    [170, 14],
    [30, 12.4],
  ]);
  // Before, while, and after it stood in the cabinet, where it has no place while it sets.
  await read(inCabinet, [
    [305, 18],
    [280, 43.2],
    [252, 44.1],
    [235, 30],
    [100, 12],
  ]);
  const { body } = await ada.get(batch.path).expect(200);
  const lot = `${path}/lots/${String(body.creamed.lotId)}`;
  return { ...club, batch, inHoney, inCabinet, lot, read };
}

const sensed = ({ epcisBody }: { epcisBody: { eventList: Event[] } }) =>
  epcisBody.eventList.filter(({ bizStep }) => bizStep === 'sensor_reporting');

test('what probes read while a batch was warmed and while it set is told, each in its place and time', async () => {
  const { ada, batch, inHoney, inCabinet, lot } = await aLoggedStory();
  const document = await documentOf(ada, lot);
  const [warming, setting, ...more] = sensed(document);

  expect(more).toEqual([]);
  expect(warming).toMatchObject({
    type: 'ObjectEvent',
    action: 'OBSERVE',
    'room:stretch': 'warming',
    quantityList: [{ epcClass: `urn:uuid:${batch.honeyId}`, quantity: 18, uom: 'KGM' }],
    bizTransactionList: [{ type: 'prodorder', bizTransaction: `urn:uuid:${batch.batchId}` }],
    sensorElementList: [
      {
        sensorMetadata: { deviceID: `urn:uuid:${inHoney}`, 'room:probeIn': 'honey' },
        sensorReport: [
          { type: 'Temperature', minValue: 20, maxValue: 41.5, meanValue: 30.75, uom: 'CEL' },
        ],
      },
      {
        sensorMetadata: { deviceID: `urn:uuid:${inCabinet}`, 'room:probeIn': 'station' },
        sensorReport: [{ minValue: 43.2, maxValue: 44.1, uom: 'CEL' }],
      },
    ],
  });
  expect(setting).toMatchObject({
    'room:stretch': 'setting',
    quantityList: [{ quantity: 15 }],
    sensorElementList: [
      {
        sensorMetadata: { 'room:readings': 2 },
        sensorReport: [{ minValue: 12.4, maxValue: 14, meanValue: 13.2 }],
      },
    ],
  });
  const steps = document.epcisBody.eventList.map(({ bizStep }) => bizStep);
  expect(steps.indexOf('sensor_reporting')).toBeGreaterThan(steps.indexOf('commissioning'));
  expect(steps.lastIndexOf('sensor_reporting')).toBeGreaterThan(steps.indexOf('packing'));
});

test('readings that come later make another event, and leave the others as they are', async () => {
  const { ada, lot, inHoney, read } = await aLoggedStory();
  const before = await documentOf(ada, lot);
  expect(await documentOf(ada, lot)).toEqual(before);
  await read(inHoney, [[100, 13]]);
  const after = await documentOf(ada, lot);

  const [warming, setting] = sensed(after);
  expect(warming).toEqual(sensed(before)[0]);
  expect(setting!.eventID).not.toBe(sensed(before)[1]!.eventID);
  expect(setting).toMatchObject({
    sensorElementList: [{ sensorMetadata: { 'room:readings': 3 } }],
  });
  expect(after.creationDate > before.creationDate).toBe(true);
});

// RFC 9562, appendix A.4: version 5 of www.example.com in the namespace of domain names.
test('a name has the UUID that the standard gives it', () => {
  expect(nameUuid('6ba7b810-9dad-11d1-80b4-00c04fd430c8', 'www.example.com')).toBe(
    '2ed6657d-e927-568b-95e1-2665a8aea6a2',
  );
});

// GS1's own schema may be used, not handed on: EPCIS_SCHEMA says where a copy of EPCIS-JSON-Schema.json is.
const schemaFile = process.env['EPCIS_SCHEMA'];
const testSchema = schemaFile === undefined ? test.skip : test;

testSchema('the document is valid by the schema of the standard (needs EPCIS_SCHEMA)', async () => {
  const { ben, ada, path, nextSeed, adasSeed } = await aStory();
  const logged = await aLoggedStory();
  const ajv = new Ajv({ strict: false, allErrors: true });
  addFormats(ajv);
  const validate = ajv.compile(JSON.parse(readFileSync(schemaFile!, 'utf8')) as object);
  for (const [actor, lot] of [
    [ben, `${path}/lots/${nextSeed}`],
    [ada, `${path}/lots/${adasSeed}`],
    [logged.ada, logged.lot],
  ] as const) {
    const document = await documentOf(actor, lot);
    validate(document);
    expect(validate.errors ?? []).toEqual([]);
    const [event] = document.epcisBody.eventList;
    const broken = {
      ...document,
      epcisBody: { eventList: [{ ...event, eventTimeZoneOffset: 'CET' }] },
    };
    expect(validate(broken)).toBe(false);
  }
});
