import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { aLot, aLotBody, aSource } from '../support/lots';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

/** Node's own fetch would read the answer for us: this one is as it came. */
async function raw(club: ClubWorld, path: string, headers: Record<string, string>) {
  const { request } = await import('node:http');
  return new Promise<{ status: number; headers: Record<string, unknown>; body: Buffer }>(
    (resolve, reject) => {
      request(
        `${service.url}/api/v1${club.path}${path}`,
        { headers: { authorization: `Bearer ${String(club.ada.token)}`, ...headers } },
        (answer) => {
          const parts: Buffer[] = [];
          answer.on('data', (part: Buffer) => parts.push(part));
          answer.on('end', () =>
            resolve({
              status: answer.statusCode ?? 0,
              headers: answer.headers,
              body: Buffer.concat(parts),
            }),
          );
        },
      )
        .on('error', reject)
        .end();
    },
  );
}

test('a long answer is compressed for whoever can read it, and says the same', async () => {
  const club = await aClub(service);
  const source = await aSource(service, club.clubId);
  for (let count = 0; count < 5; count++) await aLot(club.ada, club, source);
  const plain = await raw(club, '/lots', {});
  const gzip = await raw(club, '/lots', { 'accept-encoding': 'gzip, deflate' });
  const br = await raw(club, '/lots', { 'accept-encoding': 'gzip;q=0, br' });

  expect(plain.headers['content-encoding']).toBeUndefined();
  expect(gzip.headers['content-encoding']).toBe('gzip');
  expect(br.headers['content-encoding']).toBe('br');
  expect(gunzipSync(gzip.body)).toEqual(plain.body);
  expect(brotliDecompressSync(br.body)).toEqual(plain.body);
  expect(br.body.length).toBeLessThan(plain.body.length / 2);
  for (const { headers } of [plain, gzip, br]) expect(headers['vary']).toContain('Accept-Encoding');
  expect(new Set([plain, gzip, br].map(({ headers }) => headers['etag'])).size).toBe(1);
});

test('each coding of one thing has a strong ETag of its own, by which it is known and changed', async () => {
  const club = await aClub(service);
  const { body } = await club.ada
    .post(`${club.path}/lots`, {
      ...aLotBody(await aSource(service, club.clubId)),
      note: 'As it was brought in. '.repeat(80),
    })
    .expect(201);
  const path = `/lots/${String(body.id)}`;
  const codings = await Promise.all(
    ['identity', 'gzip', 'br'].map((coding) => raw(club, path, { 'accept-encoding': coding })),
  );

  const tags = codings.map(({ headers }) => String(headers['etag']));
  expect(new Set(tags).size).toBe(3);
  for (const tag of tags) {
    const known = await raw(club, path, { 'if-none-match': tag });
    expect([known.status, known.headers['etag']]).toEqual([304, tag]);
  }
  await club.ada
    .patch(`${club.path}${path}`, { note: 'Mended' })
    .set('If-Match', tags[2]!)
    .expect(200);
});

test('a short answer goes as it is', async () => {
  const club = await aClub(service);
  const short = await raw(club, '', { 'accept-encoding': 'br' });
  expect(short.headers['content-encoding']).toBeUndefined();
});
