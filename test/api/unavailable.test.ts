import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import request from 'supertest';
import { dress } from '../../src/app';
import { newToken } from '../../src/platform/secrets';
import { readSettings } from '../../src/platform/settings';

// The service with a database that does not answer. In a file of its own: passport keeps its strategies for the whole process.

let app: NestFastifyApplication;
let url: string;

beforeAll(async () => {
  app = await dress('postgres://127.0.0.1:1/none', readSettings({ LOG_LEVEL: 'silent' }));
  await app.listen(0, '127.0.0.1');
  url = await app.getUrl();
});

afterAll(() => app.close());

test.each([
  '/api/v1/clubs',
  '/api/v1/clubs/019a0000-0000-7000-8000-000000000000/bookings',
  '/health/ready',
])('%s tells that it cannot answer just now, and when to try again', async (path) => {
  const answer = await request(url).get(path).set('Authorization', `Bearer ${newToken()}`);

  expect(answer.status).toBe(503);
  expect(answer.headers['content-type']).toBe('application/problem+json; charset=utf-8');
  expect(answer.body).toMatchObject({ type: '/problems/unavailable', status: 503 });
  expect(Number(answer.headers['retry-after'])).toBeGreaterThan(0);
  expect(answer.text).not.toMatch(/127\.0\.0\.1|econn|postgres|prisma|sql/i);
});

test('a write tells the same', async () => {
  const answer = await request(url)
    .post('/api/v1/session')
    .send({ email: 'ada@example.org', password: 'wax moth' });

  expect([answer.status, answer.body.type]).toEqual([503, '/problems/unavailable']);
});

test('the process runs, and says so', async () => {
  await request(url).get('/health/live').expect(200);
});
