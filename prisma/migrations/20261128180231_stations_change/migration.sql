-- DropIndex
DROP INDEX "station_club_id_name_key";

-- AlterTable
ALTER TABLE "place" ADD COLUMN     "retired_at" TIMESTAMPTZ;

-- AlterTable
ALTER TABLE "station" ADD COLUMN     "retired_at" TIMESTAMPTZ;

-- AlterTable
ALTER TABLE "station_duty" ADD COLUMN     "retired_at" TIMESTAMPTZ;

-- What the database itself refuses -------------------------------------------------------------------------------------------------

-- The name of a station out of use can be given again.
create unique index station_club_id_name_key on station (club_id, name) where retired_at is null;

-- What is out of use holds no booking after it went: a station, a duty of it, a place. What was booked before stays as it was.
-- Both sides lock the station first: the one that comes second sees the other.
create function keep_booking_to_what_is_in_use() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from station where club_id = new.club_id and id = new.station_id and retired_at < new.ends_at) then
    raise exclusion_violation using constraint = 'booking_station_in_use',
      message = 'conflicting key value violates exclusion constraint "booking_station_in_use"';
  end if;
  if exists (select from station_duty where club_id = new.club_id and station_id = new.station_id and duty = new.duty
             and retired_at < new.ends_at) then
    raise exclusion_violation using constraint = 'booking_duty_served',
      message = 'conflicting key value violates exclusion constraint "booking_duty_served"';
  end if;
  return null;
end $$;
create trigger booking_station_in_use after insert or update of station_id, duty, ends_at, active on booking
  for each row when (new.active) execute function keep_booking_to_what_is_in_use();

create function keep_booking_to_places_in_use() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from place where club_id = new.club_id and id = new.place_id and retired_at < new.ends_at) then
    raise exclusion_violation using constraint = 'booking_place_in_use',
      message = 'conflicting key value violates exclusion constraint "booking_place_in_use"';
  end if;
  return null;
end $$;
create trigger booking_place_in_use after insert or update of place_id, ends_at, active on booking_place
  for each row when (new.active) execute function keep_booking_to_places_in_use();

create function keep_duty_window_to_duties_served() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from station_duty where club_id = new.club_id and station_id = new.station_id and duty = new.duty
             and retired_at < new.ends_at) then
    raise exclusion_violation using constraint = 'duty_window_duty_served',
      message = 'conflicting key value violates exclusion constraint "duty_window_duty_served"';
  end if;
  return null;
end $$;
create trigger duty_window_duty_served after insert or update on duty_window
  for each row execute function keep_duty_window_to_duties_served();

create function keep_station_while_booked() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.id for no key update;
  if exists (select from booking where club_id = new.club_id and station_id = new.id and active and ends_at > new.retired_at) then
    raise exclusion_violation using constraint = 'station_retired_unbooked',
      message = 'conflicting key value violates exclusion constraint "station_retired_unbooked"';
  end if;
  return null;
end $$;
create trigger station_retired_unbooked after insert or update of retired_at on station
  for each row when (new.retired_at is not null) execute function keep_station_while_booked();

create function keep_duty_while_booked() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from booking where club_id = new.club_id and station_id = new.station_id and duty = new.duty and active
             and ends_at > new.retired_at)
     or exists (select from duty_window where club_id = new.club_id and station_id = new.station_id and duty = new.duty
                and ends_at > new.retired_at) then
    raise exclusion_violation using constraint = 'station_duty_retired_unbooked',
      message = 'conflicting key value violates exclusion constraint "station_duty_retired_unbooked"';
  end if;
  return null;
end $$;
create trigger station_duty_retired_unbooked after insert or update of retired_at on station_duty
  for each row when (new.retired_at is not null) execute function keep_duty_while_booked();

create function keep_place_while_booked() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from booking_place where club_id = new.club_id and place_id = new.id and active and ends_at > new.retired_at) then
    raise exclusion_violation using constraint = 'place_retired_unbooked',
      message = 'conflicting key value violates exclusion constraint "place_retired_unbooked"';
  end if;
  return null;
end $$;
create trigger place_retired_unbooked after insert or update of retired_at on place
  for each row when (new.retired_at is not null) execute function keep_place_while_booked();
