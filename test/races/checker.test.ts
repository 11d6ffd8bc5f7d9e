import { breaches } from '../support/checker';
import { aLot, aSource } from '../support/lots';
import { aPlan, aPlanRoom } from '../support/plan-room';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub } from '../support/world';

// The outsider who judges the races must see what is broken: here each promise is taken out of the database and broken by hand.

const service = useService();

test('the checker finds nothing in good order, and each breach when there is one', async () => {
  const club = await aClub(service);
  const stationId = await aCabinet(club);
  const end = hoursLater(ahead(3), 24);
  const bookings = `${club.path}/bookings`;
  const first = await club.ada.post(bookings, aWish(stationId)).expect(201);
  const second = await club.ben.post(bookings, aWish(stationId)).expect(201);
  const later = { startsAt: hoursLater(end, 1), endsAt: hoursLater(end, 5) };
  const third = await club.ben.post(bookings, aWish(stationId, later)).expect(201);
  const lotId = await aLot(club.ada, club, await aSource(service, club.clubId));
  const room = await aPlanRoom(service, club);
  const plan = await aPlan(club.ada, room);
  const booked = await club.ada
    .post(`${room.plans}/${plan.id}/booking`, { alternative: 0 })
    .expect(200);
  const batchId = String(booked.body.batchId);
  const benchId = String(booked.body.bookings[1].bookingId);
  expect(await breaches(service.database)).toEqual([]);

  await breakIt(
    'alter table booking_place drop constraint place_once',
    `update booking_place set place_id = (select place_id from booking_place where booking_id = '${first.body.id}')
     where booking_id = '${second.body.id}'`,
  );
  await expectBreach('a place is held twice at one time');

  await breakIt(
    'alter table booking drop constraint one_duty_at_a_time',
    `update booking set duty = 'cool' where id = '${third.body.id}'`,
  );
  await expectBreach('two duties at one time, or too little time to change over');

  await breakIt(
    'alter table temperature_claim drop constraint temperatures_agree',
    `update booking set min_deci_c = 500, max_deci_c = 510 where id = '${second.body.id}'`,
  );
  await expectBreach('temperatures that do not go together');

  await breakIt(
    'alter table closure disable trigger closure_off_bookings',
    `insert into closure (club_id, station_id, starts_at, ends_at, reason, closed_by_id)
     values ('${club.clubId}', '${stationId}', '${ahead(3).toISOString()}', '${end.toISOString()}', '', '${club.steward.memberId}')`,
  );
  await expectBreach('a booking while the station is closed');

  await breakIt(
    'alter table place disable trigger place_retired_unbooked',
    `update place set retired_at = now() where station_id = '${stationId}' and number = 1`,
  );
  await expectBreach('a booking of a place, a duty or a station after it went out of use');
  await expectBreach('places in use that do not count from 1 without a gap');

  await breakIt(
    'alter table batch_seed disable trigger seed_reserved_within_lot',
    `update batch_seed set mass_g = 5001 where batch_id = '${batchId}'`,
  );
  await expectBreach('more seed is reserved than its lot holds');

  await breakIt(
    `insert into batch_step (club_id, batch_id, kind, at, recorded_by_id)
     values ('${club.clubId}', '${batchId}', 'abandoned', now(), '${club.ada.memberId}')`,
  );
  await expectBreach('seed is still reserved for a batch that was seeded or given up');

  await breakIt(`update booking set batch_id = null where id = '${benchId}'`);
  await expectBreach('a booking of a plan that was not booked, or of another batch');

  await breakIt(`update booking set plan_id = null where id = '${benchId}'`);
  await expectBreach('a booked plan without all of its parts');

  await breakIt(
    'alter table lot disable trigger lot_masses_by_movement_only',
    'alter table lot drop constraint lot_ledger_closes',
    `update lot set remaining_mass_g = remaining_mass_g - 1 where id = '${lotId}'`,
  );
  await expectBreach('a lot is overdrawn or its ledger does not close');

  await breakIt(
    `update lot set remaining_mass_g = remaining_mass_g - 99, lost_mass_g = 100 where id = '${lotId}'`,
  );
  await expectBreach('movements of a lot do not add up to its ledger');
});

async function breakIt(...statements: string[]): Promise<void> {
  for (const statement of statements) await service.database.query(statement);
}

async function expectBreach(name: string): Promise<void> {
  const found = await breaches(service.database);
  expect(found.filter((words) => words.startsWith(name))).not.toEqual([]);
}
