import { breaches } from '../support/checker';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

const service = useService();

const cooling = { duty: 'cool', minC: 10, maxC: 14 };
const warm = { duty: 'warm', minC: 30, maxC: 55 };

/** Which of the two is first is for chance to say: rounds go on until each has been, so many at most. */
const mostRounds = 40;

test.each([
  ['its last place', { places: 3 }, {}],
  ['its duty', { duties: [warm] }, cooling],
  ['the whole station', { retired: true }, {}],
])(
  'of bookings that want it all and the removal of %s at the same moment, exactly one wins',
  async (_, change, wish) => {
    const winners = new Set<string>();
    for (let round = 0; round < mostRounds && (winners.size < 2 || round < 6); round++) {
      const club = await aClub(service);
      const stationId = await aCabinet(club, 4);
      const station = `${club.path}/stations/${stationId}`;
      const { headers } = await club.steward.get(station).expect(200);
      const book = () =>
        club.ada.post(`${club.path}/bookings`, aWish(stationId, { ...wish, places: 4 }));
      const remove = () =>
        club.steward.patch(station, change).set('If-Match', String(headers['etag']));
      const bookers = Array.from({ length: 3 }, () => book);
      // Another one is first in each round.
      const deeds = [...bookers.slice(round % 4), remove, ...bookers.slice(0, round % 4)];

      const answers = await Promise.all(deeds.map((deed) => deed()));

      const removed = answers.filter(({ status }) => status === 200);
      const booked = answers.filter(({ status }) => status === 201);
      expect(removed.length + booked.length).toBe(1);
      winners.add(removed.length === 1 ? 'removal' : 'booking');
      for (const { status, body } of answers) {
        if (body.type === '/problems/still-needed') {
          expect(body.bookings).toEqual([booked[0]?.body.id]);
        }
        expect([200, 201, 409, 422]).toContain(status);
      }
    }
    expect(await breaches(service.database)).toEqual([]);
    expect([...winners].sort()).toEqual(['booking', 'removal']);
  },
);

test('two who change the number of places at once do not both: the second has read what is no more', async () => {
  const club = await aClub(service);
  const station = `${club.path}/stations/${await aCabinet(club, 4)}`;
  const { headers } = await club.steward.get(station).expect(200);

  const answers = await Promise.all(
    [2, 3, 5, 6].map((places) =>
      club.steward.patch(station, { places }).set('If-Match', String(headers['etag'])),
    ),
  );

  expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412, 412]);
  const won = answers.find(({ status }) => status === 200);
  expect((await club.ada.get(station)).body.places).toBe(won?.body.places);
});

test('bookings that are moved to other places while others book: nothing stands on what goes', async () => {
  const club = await aClub(service);
  const stationId = await aCabinet(club, 6);
  const station = `${club.path}/stations/${stationId}`;
  const bookings = `${club.path}/bookings`;
  const wish = (index: number) => {
    const startsAt = hoursLater(ahead(3), 10 * index);
    return aWish(stationId, { startsAt, endsAt: hoursLater(startsAt, 24), places: 2 });
  };
  for (let index = 0; index < 6; index++) await club.ada.post(bookings, wish(index)).expect(201);

  const answers = await Promise.all([
    ...[0, 1, 2, 3].map((index) => club.ben.post(bookings, wish(index * 2))),
    club.steward.change(station, { places: 5, otherPlaces: true }),
    club.steward.change(station, { places: 4, otherPlaces: true }),
    ...[4, 5, 6, 7].map((index) => club.ben.post(bookings, wish(index))),
  ]);

  expect(answers.every(({ status }) => [200, 201, 409, 412].includes(status))).toBe(true);
  expect(await breaches(service.database)).toEqual([]);
});
