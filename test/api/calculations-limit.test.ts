import { PER_MINUTE } from '../../src/calculations/calculation-limit';
import { inTurns } from '../support/in-turns';
import { useService } from '../support/service';
import { nobody } from '../support/world';

const service = useService();

/** What each calculation refuses at once, so that the count is reached without much work. */
const light = [
  ['moisture', { refractiveIndex: 1 }],
  ['seeding', { percent: 10, convention: 'perHoney' }],
  ['keeping', {}],
  ['fermentation', { moisturePercent: 50 }],
  ['setting', { glucosePercent: 90 }],
  ['net-quantity', { nominalG: 1 }],
] as const;
const heavy = [
  ['warming', { pails: [{ count: 1 }] }],
  ['cooling', { pails: [{ count: 1 }], airC: 90 }],
] as const;

test.each([
  ...light.map(([name, body]) => [name, body, PER_MINUTE.light] as const),
  ...heavy.map(([name, body]) => [name, body, PER_MINUTE.heavy] as const),
])('%s calculations from one address are limited', async (name, body, most) => {
  const tries = Array<object>(most).fill(body);
  const answers = await inTurns(tries, (one) => nobody(service).post(`/calculations/${name}`, one));
  expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([422]));

  const refused = await nobody(service).post(`/calculations/${name}`, body);
  expect([refused.status, refused.body.type]).toEqual([429, '/problems/too-many']);
  expect(Number(refused.headers['retry-after'])).toBeGreaterThan(0);
  expect(Number(refused.headers['retry-after'])).toBeLessThanOrEqual(60);
});

test('what is limited does not reach the database', async () => {
  await nobody(service).post('/calculations/fermentation', { moisturePercent: 17 });
  const rows = await service.database.query("select key from rate_limit where key like '%calc%'");
  expect(rows).toEqual([]);
});
