import { notify } from '../../src/notices/notify';
import { mailAgain } from '../../src/notices/mail-again';
import { Jobs } from '../../src/jobs/jobs.service';
import { Database } from '../../src/platform/database';
import { startCopy, type Copy } from '../support/copy';
import { startMailServer, type MailServer } from '../support/mail-server';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

// Each event is mailed once to each member, however many copies of the service take jobs, and whichever of them dies over it.

const settings: Record<string, string> = {};
let mails: MailServer;
beforeAll(async () => {
  mails = await startMailServer();
  settings['SMTP_URL'] = mails.url;
});
const service = useService(settings);
afterAll(() => mails.close());

let copies: Copy[] = [];
afterEach(async () => {
  for (const copy of copies) await copy.stop();
  copies = [];
});

beforeEach(() => {
  mails.taken.length = 0;
});

/** A steward closes the cabinet on that many bookings of Ada's. */
async function cancelByClosure(club: ClubWorld, count: number): Promise<void> {
  const { ada, steward, path } = club;
  const stationId = await aCabinet(club, 4);
  for (let index = 0; index < count; index++) {
    const startsAt = hoursLater(ahead(3), index * 3);
    await ada
      .post(`${path}/bookings`, aWish(stationId, { startsAt, endsAt: hoursLater(startsAt, 2) }))
      .expect(201);
  }
  await steward
    .post(`${path}/stations/${stationId}/closures`, {
      startsAt: ahead(2),
      endsAt: ahead(20),
      reason: 'Repair',
      bookings: 'cancel',
    })
    .expect(201);
}

async function until(isSo: () => Promise<boolean> | boolean): Promise<void> {
  const giveUpAt = Date.now() + 30_000;
  while (!(await isSo())) {
    if (Date.now() > giveUpAt) throw new Error('It did not come about.');
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

const unmailed = (club: ClubWorld) =>
  service.prisma.notice.count({ where: { clubId: club.clubId, mailedAt: null } });
/** Those that wait. */
const jobs = async () =>
  Number(
    (
      await service.database.query(
        `select count(*) from graphile_worker.jobs where task_identifier = 'mail-notice' and locked_at is null`,
      )
    )[0]!['count'],
  );

test('two copies that take jobs at once send each notice once', async () => {
  const club = await aClub(service);
  copies = await Promise.all([
    startCopy(service.database.url, settings),
    startCopy(service.database.url, settings),
  ]);

  await cancelByClosure(club, 24);
  // As if the jobs had been lost: each is there a second time, and once more.
  for (let round = 0; round < 2; round++) {
    await mailAgain(service.app.get(Database), hoursLater(new Date(), 1));
  }
  await until(async () => (await unmailed(club)) === 0 && (await jobs()) === 0);

  expect(mails.taken).toHaveLength(24);
  expect(new Set(mails.taken.map(({ messageId }) => messageId)).size).toBe(24);
});

test('a copy killed while the mail server has the mail but has not taken it leaves it to another, which sends it once', async () => {
  const club = await aClub(service);
  const doomed = await startCopy(service.database.url, settings);
  const held = mails.holdNext();
  await cancelByClosure(club, 1);
  const { goOn } = await held;

  doomed.process.kill('SIGKILL');
  await doomed.died();
  goOn();
  expect(mails.taken).toEqual([]);
  expect(await unmailed(club)).toBe(1);

  // While nobody can tell whether the copy lives, the job is left alone; later it is anybody's.
  const database = service.app.get(Database);
  await mailAgain(database, new Date());
  await service.app.get(Jobs).runOnce();
  expect(mails.taken).toEqual([]);
  await mailAgain(database, hoursLater(new Date(), 1));
  await service.app.get(Jobs).runOnce();

  expect(mails.taken).toHaveLength(1);
  expect(await unmailed(club)).toBe(0);
  await service.app.get(Jobs).runOnce();
  expect(mails.taken).toHaveLength(1);
});

test('a change that is rolled back tells nobody, and leaves no job', async () => {
  const club = await aClub(service);
  await expect(
    service.prisma.$transaction(async (tx) => {
      const event = {
        memberId: club.ada.memberId,
        kind: 'booking.moved',
        event: 'x',
        subjectId: club.clubId,
        details: {},
      };
      await notify(tx, club.clubId, [event]);
      throw new Error('rolled back');
    }),
  ).rejects.toThrow('rolled back');

  expect([
    await service.prisma.notice.count({ where: { clubId: club.clubId } }),
    await jobs(),
  ]).toEqual([0, 0]);
});

test('what the mail server refuses for now is tried again later, and then sent once', async () => {
  const club = await aClub(service);
  mails.refuseWith(451);
  await cancelByClosure(club, 1);
  await service.app.get(Jobs).runOnce();
  expect([mails.taken.length, await unmailed(club), await jobs()]).toEqual([0, 1, 1]);

  mails.refuseWith(null);
  await service.database.query(
    `select graphile_worker.reschedule_jobs(array_agg(id), now()) from graphile_worker.jobs`,
  );
  await service.app.get(Jobs).runOnce();
  expect([mails.taken.length, await unmailed(club), await jobs()]).toEqual([1, 0, 0]);
});
