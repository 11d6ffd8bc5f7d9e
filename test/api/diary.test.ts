import { mostBookings } from '../../src/diary/diary.responses';
import { countStatements } from '../support/lots';
import { everyDay, openOn } from '../support/opening';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;

const from = ahead(3, 0);
const to = hoursLater(from, 14 * 24);

beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club);
});

function diary(start = from, end = to) {
  const span = new URLSearchParams({ from: start.toISOString(), to: end.toISOString() });
  return club.ada.get(`${club.path}/diary?${span.toString()}`);
}

async function book(days: number, different: object = {}) {
  const times = { startsAt: ahead(days), endsAt: hoursLater(ahead(days), 24) };
  const { body } = await club.ben
    .post(`${club.path}/bookings`, aWish(stationId, { ...times, ...different }))
    .expect(201);
  return body as { id: string; places: number[] };
}

test('every station is told with what is booked, closed and kept for one duty in that time', async () => {
  const later = await book(6, { places: 2 });
  const sooner = await book(4);
  const cancelled = await book(8);
  await club.ben.remove(`${club.path}/bookings/${cancelled.id}`);
  const station = `${club.path}/stations/${stationId}`;
  const closed = { startsAt: ahead(10).toISOString(), endsAt: ahead(11).toISOString() };
  const closure = await club.steward.post(`${station}/closures`, { ...closed, reason: 'Cleaning' });
  const kept = { startsAt: ahead(12).toISOString(), endsAt: ahead(30).toISOString() };
  const window = await club.steward.post(`${station}/duty-windows`, { ...kept, duty: 'cool' });

  const { body } = await diary().expect(200);

  const { memberId } = club.ben;
  expect(body).toEqual({
    from: from.toISOString(),
    toldUntil: to.toISOString(),
    open: [{ startsAt: from.toISOString(), endsAt: to.toISOString() }],
    stations: [
      {
        id: stationId,
        name: 'Cabinet',
        places: 2,
        bookings: [
          {
            id: sooner.id,
            duty: 'warm',
            memberId,
            memberName: expect.stringMatching(/^Person/),
            startsAt: ahead(4).toISOString(),
            endsAt: ahead(5).toISOString(),
            places: sooner.places,
            state: 'booked',
          },
          expect.objectContaining({ id: later.id, places: [1, 2] }),
        ],
        closures: [{ id: closure.body.id, ...closed, reason: 'Cleaning' }],
        dutyWindows: [{ id: window.body.id, ...kept, duty: 'cool', note: '' }],
      },
    ],
  });
});

test('what only touches the time is left out, what reaches into it is told', async () => {
  const { id } = await book(4);
  const idsOf = async (start: Date, end: Date) => {
    const { body } = await diary(start, end).expect(200);
    const [station] = body.stations as { bookings: { id: string }[] }[];
    return station?.bookings.map((booking) => booking.id);
  };

  expect(await idsOf(ahead(3), ahead(4))).toEqual([]);
  expect(await idsOf(ahead(5), ahead(6))).toEqual([]);
  expect(await idsOf(ahead(3), hoursLater(ahead(4), 1))).toEqual([id]);
  expect(await idsOf(hoursLater(ahead(5), -1), ahead(6))).toEqual([id]);
});

test('what stood on a place or in a station that is out of use now is told with it, and else it is not', async () => {
  const [start, end] = [ahead(-4), ahead(-3)];
  const past = { ...aWish(stationId, { startsAt: start, endsAt: end, places: 2 }) };
  const { body: booking } = await club.steward.post(`${club.path}/bookings`, past).expect(201);
  const station = `${club.path}/stations/${stationId}`;
  const told = async (since: Date, until: Date) => (await diary(since, until)).body.stations;

  await club.steward.change(station, { places: 1 });
  expect(await told(start, end)).toMatchObject([{ places: 2, bookings: [{ id: booking.id }] }]);
  expect(await told(from, to)).toMatchObject([{ places: 1, bookings: [] }]);
  await club.steward.change(station, { retired: true });
  expect(await told(start, end)).toMatchObject([{ places: 2, bookings: [{ id: booking.id }] }]);
  expect(await told(from, to)).toEqual([]);
});

test('it tells when people may come in', async () => {
  await openOn(club, everyDay, 8 * 60, 20 * 60);
  const day = ahead(5).toISOString().slice(0, 10);
  await club.steward.post(`${club.path}/closed-days`, { day, reason: 'Feast' }).expect(201);

  const { body } = await diary(ahead(4, 12), ahead(6, 12)).expect(200);
  const clock = (at: string) =>
    new Date(at).toLocaleString('sv', { timeZone: 'Europe/Vienna' }).slice(0, 16);
  const dayOf = (days: number) => ahead(days).toISOString().slice(0, 10);
  const open = body.open as { startsAt: string; endsAt: string }[];
  expect(open.map(({ startsAt, endsAt }) => [clock(startsAt), clock(endsAt)])).toEqual([
    [clock(ahead(4, 12).toISOString()), `${dayOf(4)} 20:00`],
    [`${dayOf(6)} 08:00`, clock(ahead(6, 12).toISOString())],
  ]);
});

test('a place that is kept for somebody who waits is told as kept', async () => {
  const { id } = await book(4, { places: 2 });
  await club.ada
    .post(`${club.path}/waiting-list`, {
      stationId,
      duty: 'warm',
      minC: 40,
      maxC: 45,
      places: 1,
      minutes: 24 * 60,
      notBefore: ahead(4),
      notAfter: ahead(5),
    })
    .expect(201);
  await club.ben.remove(`${club.path}/bookings/${id}`);

  const { body } = await diary().expect(200);
  expect(body.stations[0].bookings).toMatchObject([{ memberId: club.ada.memberId, state: 'kept' }]);
});

test('with more bookings than one answer tells it says from when on to ask again, and none is lost', async () => {
  const many = mostBookings + 300;
  await club.steward.change(`${club.path}/stations/${stationId}`, { places: 200 });
  await service.prisma.$executeRaw`
    with made as (
      insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes)
      select ${club.clubId}::uuid, ${stationId}::uuid, 'cool', ${club.ben.memberId}::uuid, 100, 140, start, start + interval '1 hour', 0
      from generate_series(0, ${many - 1}::int) n, lateral (select ${from}::timestamptz + make_interval(hours => n / 200 * 4) as start) s
      returning *)
    insert into booking_place (club_id, booking_id, place_id, station_id, starts_at, ends_at)
    select m.club_id, m.id, p.id, m.station_id, m.starts_at, m.ends_at
    from (select *, row_number() over (partition by starts_at) as number from made) m
    join place p on p.club_id = m.club_id and p.station_id = m.station_id and p.number = m.number`;

  const seen = new Set<string>();
  const told: { toldUntil: string }[] = [];
  for (let start = from; start < to; start = new Date(told.at(-1)!.toldUntil)) {
    const { body } = await diary(start, to).expect(200);
    const answer = body as { toldUntil: string; stations: { bookings: { id: string }[] }[] };
    answer.stations.forEach(({ bookings }) => bookings.forEach(({ id }) => seen.add(id)));
    told.push(answer);
  }

  expect(told).toHaveLength(2);
  expect(seen.size).toBe(many);
});

test.each([
  [ahead(5), ahead(5)],
  [ahead(5), ahead(4)],
  [ahead(5), hoursLater(ahead(36), 1)],
])('from %s to %s is refused', async (start, end) => {
  const { status, body } = await diary(start, end);
  expect(status).toBe(422);
  expect(body.errors).toEqual([{ parameter: 'to', detail: expect.stringMatching(/31 days/) }]);
});

test('it takes one statement, and one to know the caller', async () => {
  await book(4);
  await diary().expect(200);
  expect(await countStatements(() => diary().expect(200))).toBe(2);
});
