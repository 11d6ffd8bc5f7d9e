import { randomUUID } from 'node:crypto';
import path from 'node:path';
import request from 'supertest';
import { startCopy } from '../support/copy';
import { aCabinet, aWish } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();
const killSwitch = path.resolve(__dirname, '../support/kill-switch.cjs');

test.each([
  ['before the transaction', 0, undefined],
  ['inside the transaction', 0, undefined],
  ['after the commit', 1, 'true'],
  ['after the answer', 1, 'true'],
])(
  'a service killed %s leaves all or nothing, and the repeat has one effect',
  async (moment, bookingsLeft, replayed) => {
    const club = await aClub(service);
    const wish = aWish(await aCabinet(club));
    const key = randomUUID();
    const bookings = () => service.prisma.booking.count({ where: { clubId: club.clubId } });
    const doomed = await startCopy(service.database.url, {
      KILL_AT: moment,
      NODE_OPTIONS: `--require ${killSwitch}`,
    });

    const first = await send(doomed.url).catch(() => null);
    await doomed.died();

    expect(first?.status ?? null).toBe(moment === 'after the answer' ? 201 : null);
    expect(await bookings()).toBe(bookingsLeft);
    const again = await send(service.url);
    expect([again.status, again.headers['idempotent-replayed']]).toEqual([201, replayed]);
    expect(await bookings()).toBe(1);
    if (first !== null) expect(again.body).toEqual(first.body);

    async function send(url: string) {
      return request(url)
        .post(`/api/v1${club.path}/bookings`)
        .set('Authorization', `Bearer ${String(club.ada.token)}`)
        .set('Idempotency-Key', key)
        .send(wish);
    }
  },
);
