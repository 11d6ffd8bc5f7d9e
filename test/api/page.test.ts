import request from 'supertest';
import { useService } from '../support/service';

const service = useService();

function get(path: string) {
  return request(service.url).get(path);
}

test('the page answers at the address of each screen, under a policy that runs no inline script', async () => {
  for (const path of ['/', '/batches', '/lots/A1', '/seed', '/join/abc']) {
    const { headers, text } = await get(path).expect(200);
    expect(headers['content-type']).toMatch('text/html');
    expect(headers['cache-control']).toBe('no-cache');
    expect(headers['content-security-policy']).toMatch("script-src 'self';");
    expect(text).not.toMatch(/<script(?![^>]*\bsrc=)/);
  }
});

test('what is no screen is no page', async () => {
  const { headers } = await get('/nothing-here').expect(404);
  expect(headers['content-type']).toMatch('application/problem+json');
});

test('its files are kept for a year under names that change with their content', async () => {
  const { text } = await get('/');
  const script = /src="(\/assets\/[^"]+\.js)"/.exec(text)?.[1] ?? '';

  const { headers } = await get(script).set('Accept-Encoding', 'br').expect(200);

  expect(headers['cache-control']).toMatch('immutable');
  expect(headers['content-encoding']).toBe('br');
});
