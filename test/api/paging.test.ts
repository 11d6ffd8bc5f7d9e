import { randomUUID } from 'node:crypto';
import type request from 'supertest';
import { Browser } from '../support/browser';
import { daysAgo } from '../support/lots';
import { aCabinet, ahead, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, aSessionCookieOf, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;

beforeEach(async () => {
  club = await aClub(service);
});

/** All ids of a list, by its links alone; between two pages `meanwhile` runs. */
async function walk(
  actor: Actor,
  start: string,
  meanwhile: () => Promise<unknown> = () => Promise.resolve(),
): Promise<string[]> {
  const ids: string[] = [];
  for (let next: string | undefined = start; next !== undefined;) {
    const { body, headers }: request.Response = await actor.get(next).expect(200);
    ids.push(...(body.items as { id: string }[]).map(({ id }) => id));
    next = /^<\/api\/v1(.*)>; rel="next"$/.exec(String(headers['link']))?.[1];
    expect(next === undefined).toBe(body.nextCursor === null);
    if (next !== undefined) await meanwhile();
  }
  return ids;
}

function expectWhole(seen: string[], standing: string[]): void {
  expect(new Set(seen).size).toBe(seen.length);
  expect(standing.filter((id) => !seen.includes(id))).toEqual([]);
}

async function sources(count: number): Promise<string[]> {
  const made = await service.prisma.floralSource.createManyAndReturn({
    data: Array.from({ length: count }, () => ({
      clubId: club.clubId,
      name: randomUUID(),
      grain: 'fine' as const,
      sets: true,
    })),
  });
  return made.map(({ id }) => id);
}

test('while 200 floral sources come and go, each that stands throughout is seen, and none twice', async () => {
  const standing = await sources(100);
  const leaving = await sources(100);

  const seen = await walk(club.ada, `${club.path}/floral-sources?limit=7`, async () => {
    await sources(10);
    const gone = leaving.splice(0, 10);
    await service.prisma.floralSource.deleteMany({ where: { id: { in: gone } } });
  });

  expectWhole(seen, standing);
});

test('the same holds for bookings that many have at the same start', async () => {
  const stationId = await aCabinet(club);
  const book = (count: number) =>
    Promise.all(
      Array.from({ length: count }, async (_, index) => {
        const startsAt = ahead(3 + (index % 3));
        const { id } = await service.prisma.booking.create({
          data: {
            clubId: club.clubId,
            stationId,
            memberId: club.ada.memberId,
            duty: 'warm',
            minDeciC: 400,
            maxDeciC: 450,
            startsAt,
            endsAt: hoursLater(startsAt, 5),
            changeoverMinutes: 120,
          },
        });
        return id;
      }),
    );
  const standing = await book(60);
  const leaving = await book(60);

  const seen = await walk(club.ben, `${club.path}/bookings?limit=9`, async () => {
    await book(6);
    const gone = leaving.splice(0, 6);
    await service.prisma.booking.deleteMany({ where: { id: { in: gone } } });
  });

  expectWhole(seen, standing);
});

test('pages of every size hold the same, in the same order', async () => {
  await sources(23);
  const whole = await walk(club.ada, `${club.path}/floral-sources?limit=200`);
  expect(whole).toHaveLength(23);
  for (const limit of [1, 5, 22, 23, 24]) {
    expect(await walk(club.ada, `${club.path}/floral-sources?limit=${limit}`)).toEqual(whole);
  }
});

test('a cursor opens nothing: in the hands of somebody else it leads to nothing of its owner’s', async () => {
  await sources(3);
  const { body } = await club.ada.get(`${club.path}/floral-sources?limit=1`);
  const cursor = String(body.nextCursor);
  const other = await aClub(service);

  await other.ada.get(`${club.path}/floral-sources?cursor=${cursor}`).expect(404);
  await other.ada.get(`${other.path}/floral-sources?cursor=${cursor}`).expect(400);
  await club.ben.get(`${club.path}/floral-sources?cursor=${cursor}`).expect(200);
});

test('no list takes the cursor of another one, or one that was tampered with', async () => {
  await sources(2);
  const { body } = await club.ada.get(`${club.path}/floral-sources?limit=1`);
  const cursor = String(body.nextCursor);
  const lists = Object.entries(service.document.paths)
    .filter(([, item]) => JSON.stringify((item as { get?: object }).get ?? {}).includes('"cursor"'))
    .map(([path]) => path.replace('/api/v1', ''))
    .filter((path) => path.startsWith('/clubs/{clubId}/') && path.split('{').length === 2);
  expect(lists.length).toBeGreaterThan(5);
  // Some lists are not for tokens.
  const cookie = await aSessionCookieOf(service, club.steward.personId);
  const browser = new Browser(service, cookie);
  for (const path of lists) {
    const list = path.replace('{clubId}', club.clubId);
    const [sum, text] = cursor.split('.');
    const strange = [`${sum!}.${text!}x`, `x${cursor}`, 'x', '.', `${sum!}.`, daysAgo(1)];
    if (!list.endsWith('floral-sources')) strange.push(cursor);
    for (const one of strange) {
      const answer = await browser.get(`${list}?cursor=${encodeURIComponent(one)}`);
      expect([path, one, answer.status, answer.body.type]).toEqual([
        path,
        one,
        400,
        '/problems/bad-cursor',
      ]);
    }
  }
});
