-- CreateEnum
CREATE TYPE "waiting_state" AS ENUM ('waiting', 'offered', 'taken', 'lapsed', 'withdrawn');

-- AlterTable
ALTER TABLE "booking" ADD COLUMN     "arrived_at" TIMESTAMPTZ,
ADD COLUMN     "cleared_at" TIMESTAMPTZ,
ADD COLUMN     "kept_for_id" UUID,
ADD COLUMN     "kept_until" TIMESTAMPTZ,
ADD COLUMN     "plan_id" UUID;

-- AlterTable
ALTER TABLE "club" ADD COLUMN     "no_show_minutes" INTEGER NOT NULL DEFAULT 240,
ADD COLUMN     "offer_minutes" INTEGER NOT NULL DEFAULT 720,
ADD COLUMN     "place_days_ahead" INTEGER;

-- CreateTable
CREATE TABLE "opening_hours" (
    "club_id" UUID NOT NULL,
    "weekday" INTEGER NOT NULL,
    "opens_minute" INTEGER NOT NULL,
    "closes_minute" INTEGER NOT NULL,

    CONSTRAINT "opening_hours_pkey" PRIMARY KEY ("club_id","weekday","opens_minute")
);

-- CreateTable
CREATE TABLE "closed_day" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "day" DATE NOT NULL,
    "reason" TEXT NOT NULL,

    CONSTRAINT "closed_day_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "duty_window" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "station_id" UUID NOT NULL,
    "duty" "duty" NOT NULL,
    "starts_at" TIMESTAMPTZ NOT NULL,
    "ends_at" TIMESTAMPTZ NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "set_by_id" UUID NOT NULL,

    CONSTRAINT "duty_window_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "waiting_wish" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "member_id" UUID NOT NULL,
    "station_id" UUID NOT NULL,
    "duty" "duty" NOT NULL,
    "min_deci_c" INTEGER NOT NULL,
    "max_deci_c" INTEGER NOT NULL,
    "places" INTEGER NOT NULL,
    "minutes" INTEGER NOT NULL,
    "not_before" TIMESTAMPTZ NOT NULL,
    "not_after" TIMESTAMPTZ NOT NULL,
    "batch_id" UUID,
    "note" TEXT NOT NULL DEFAULT '',
    "state" "waiting_state" NOT NULL DEFAULT 'waiting',
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_at" TIMESTAMPTZ,

    CONSTRAINT "waiting_wish_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "plan" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "member_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ NOT NULL,
    "request" JSONB NOT NULL,
    "alternatives" JSONB NOT NULL,
    "batch_id" UUID,
    "booked_at" TIMESTAMPTZ,

    CONSTRAINT "plan_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "batch_seed" (
    "club_id" UUID NOT NULL,
    "batch_id" UUID NOT NULL,
    "lot_id" UUID NOT NULL,
    "mass_g" INTEGER NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "batch_seed_pkey" PRIMARY KEY ("club_id","batch_id","lot_id")
);

-- CreateTable
CREATE TABLE "notice" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "member_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "event" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "details" JSONB NOT NULL DEFAULT '{}',
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "read_at" TIMESTAMPTZ,
    "mailed_at" TIMESTAMPTZ,

    CONSTRAINT "notice_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateIndex
CREATE UNIQUE INDEX "closed_day_club_id_day_key" ON "closed_day"("club_id", "day");

-- CreateIndex
CREATE INDEX "duty_window_club_id_station_id_starts_at_idx" ON "duty_window"("club_id", "station_id", "starts_at");

-- CreateIndex
CREATE INDEX "waiting_wish_club_id_station_id_state_id_idx" ON "waiting_wish"("club_id", "station_id", "state", "id");

-- CreateIndex
CREATE INDEX "plan_expires_at_idx" ON "plan"("expires_at");

-- CreateIndex
CREATE UNIQUE INDEX "plan_club_id_batch_id_key" ON "plan"("club_id", "batch_id");

-- CreateIndex
CREATE INDEX "batch_seed_club_id_lot_id_idx" ON "batch_seed"("club_id", "lot_id");

-- CreateIndex
CREATE INDEX "notice_club_id_member_id_id_idx" ON "notice"("club_id", "member_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "notice_club_id_member_id_event_key" ON "notice"("club_id", "member_id", "event");

-- CreateIndex
CREATE INDEX "booking_club_id_kept_for_id_idx" ON "booking"("club_id", "kept_for_id");

-- CreateIndex
CREATE INDEX "booking_club_id_plan_id_idx" ON "booking"("club_id", "plan_id");

-- AddForeignKey
ALTER TABLE "opening_hours" ADD CONSTRAINT "opening_hours_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "closed_day" ADD CONSTRAINT "closed_day_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "duty_window" ADD CONSTRAINT "duty_window_club_id_station_id_duty_fkey" FOREIGN KEY ("club_id", "station_id", "duty") REFERENCES "station_duty"("club_id", "station_id", "duty") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "duty_window" ADD CONSTRAINT "duty_window_club_id_set_by_id_fkey" FOREIGN KEY ("club_id", "set_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "booking" ADD CONSTRAINT "booking_club_id_plan_id_fkey" FOREIGN KEY ("club_id", "plan_id") REFERENCES "plan"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "booking" ADD CONSTRAINT "booking_club_id_kept_for_id_fkey" FOREIGN KEY ("club_id", "kept_for_id") REFERENCES "waiting_wish"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "waiting_wish" ADD CONSTRAINT "waiting_wish_club_id_member_id_fkey" FOREIGN KEY ("club_id", "member_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "waiting_wish" ADD CONSTRAINT "waiting_wish_club_id_station_id_fkey" FOREIGN KEY ("club_id", "station_id") REFERENCES "station"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "waiting_wish" ADD CONSTRAINT "waiting_wish_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_club_id_member_id_fkey" FOREIGN KEY ("club_id", "member_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan" ADD CONSTRAINT "plan_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_seed" ADD CONSTRAINT "batch_seed_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_seed" ADD CONSTRAINT "batch_seed_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "notice" ADD CONSTRAINT "notice_club_id_member_id_fkey" FOREIGN KEY ("club_id", "member_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What the database itself refuses -------------------------------------------------------------------------------------------------

alter table club add constraint club_fair_share_sensible check (place_days_ahead between 1 and 100000);
alter table club add constraint club_offer_minutes_sensible check (offer_minutes between 15 and 20160);
alter table club add constraint club_no_show_minutes_sensible check (no_show_minutes between 15 and 20160);

alter table opening_hours add constraint opening_hours_weekday check (weekday between 1 and 7);
alter table opening_hours add constraint opening_hours_close_after_they_open
  check (opens_minute >= 0 and closes_minute <= 1440 and opens_minute < closes_minute);
alter table opening_hours add constraint opening_hours_once exclude using gist (
  club_id with =, weekday with =, int4range(opens_minute, closes_minute, '[)') with &&
);

alter table duty_window add constraint duty_window_ends_after_start check (starts_at < ends_at);
alter table duty_window add constraint duty_window_once exclude using gist (
  club_id with =, station_id with =, tstzrange(starts_at, ends_at, '[)') with &&
);

-- Within a duty window no other duty is booked. Both sides lock the station first: the one that comes second sees the other.
create function keep_booking_in_duty_windows() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from duty_window where club_id = new.club_id and station_id = new.station_id and duty <> new.duty
             and starts_at < new.ends_at and ends_at > new.starts_at) then
    raise exclusion_violation using constraint = 'booking_in_duty_windows',
      message = 'conflicting key value violates exclusion constraint "booking_in_duty_windows"';
  end if;
  return null;
end $$;
create trigger booking_in_duty_windows after insert or update of station_id, duty, starts_at, ends_at, active on booking
  for each row when (new.active) execute function keep_booking_in_duty_windows();

create function keep_duty_window_off_bookings() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from booking where club_id = new.club_id and station_id = new.station_id and active and duty <> new.duty
             and starts_at < new.ends_at and ends_at > new.starts_at) then
    raise exclusion_violation using constraint = 'duty_window_off_bookings',
      message = 'conflicting key value violates exclusion constraint "duty_window_off_bookings"';
  end if;
  return null;
end $$;
create trigger duty_window_off_bookings after insert or update on duty_window
  for each row execute function keep_duty_window_off_bookings();

-- A time is kept for somebody who waits, and for a while.
alter table booking add constraint booking_kept_for_a_wish check (kept_until is null or kept_for_id is not null);
alter table booking add constraint booking_cleared_after_arrival check (cleared_at >= arrived_at);
alter table waiting_wish add constraint waiting_wish_band_in_order check (min_deci_c <= max_deci_c);
alter table waiting_wish add constraint waiting_wish_asks_for_something check (places > 0 and minutes > 0);
alter table waiting_wish add constraint waiting_wish_fits_its_span
  check ((not_before at time zone 'UTC') + make_interval(mins => minutes) <= (not_after at time zone 'UTC'));
alter table waiting_wish add constraint waiting_wish_ended_or_not check ((ended_at is null) = (state in ('waiting', 'offered')));
-- One offer at a time for one wish.
create unique index booking_kept_once on booking (club_id, kept_for_id) where active and kept_until is not null;

alter table plan add constraint plan_booked_with_its_batch check ((batch_id is null) = (booked_at is null));

-- Reserved seed stays in its lot until its batch draws it or lets it go.
alter table batch_seed add constraint batch_seed_has_mass check (mass_g > 0);
create function check_seed_reserved(club uuid, seed_lot_id uuid) returns void language plpgsql as $$
declare
  left_g int;
begin
  select remaining_mass_g into left_g from lot where club_id = club and id = seed_lot_id for no key update;
  if (select coalesce(sum(mass_g), 0) from batch_seed where club_id = club and lot_id = seed_lot_id and active) > left_g then
    raise check_violation using constraint = 'seed_reserved',
      message = 'new row for relation "batch_seed" violates check constraint "seed_reserved"';
  end if;
end $$;
create function keep_seed_for_batch() returns trigger language plpgsql as $$
begin
  perform check_seed_reserved(new.club_id, new.lot_id);
  return null;
end $$;
create trigger seed_reserved_within_lot after insert or update on batch_seed
  for each row when (new.active) execute function keep_seed_for_batch();
create function keep_reserved_seed() returns trigger language plpgsql as $$
begin
  perform check_seed_reserved(new.club_id, new.id);
  return null;
end $$;
create trigger seed_reserved_in_lot after update of remaining_mass_g on lot
  for each row when (new.remaining_mass_g < old.remaining_mass_g) execute function keep_reserved_seed();
