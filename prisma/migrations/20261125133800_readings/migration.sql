-- AlterTable
ALTER TABLE "setting_check" ADD COLUMN     "struck_at" TIMESTAMPTZ,
ADD COLUMN     "struck_because" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "struck_by_id" UUID;

-- CreateTable
CREATE TABLE "probe" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "name" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "probe_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "probe_placement" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "probe_id" UUID NOT NULL,
    "station_id" UUID,
    "batch_id" UUID,
    "starts_at" TIMESTAMPTZ NOT NULL,
    "ends_at" TIMESTAMPTZ,

    CONSTRAINT "probe_placement_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "reading" (
    "club_id" UUID NOT NULL,
    "probe_id" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "temperature_deci_c" INTEGER NOT NULL,
    "recorded_by_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "reading_pkey" PRIMARY KEY ("club_id","probe_id","at")
);

-- CreateIndex
CREATE UNIQUE INDEX "probe_club_id_name_key" ON "probe"("club_id", "name");

-- CreateIndex
CREATE INDEX "probe_placement_club_id_station_id_starts_at_idx" ON "probe_placement"("club_id", "station_id", "starts_at");

-- CreateIndex
CREATE INDEX "probe_placement_club_id_batch_id_starts_at_idx" ON "probe_placement"("club_id", "batch_id", "starts_at");

-- AddForeignKey
ALTER TABLE "setting_check" ADD CONSTRAINT "setting_check_club_id_struck_by_id_fkey" FOREIGN KEY ("club_id", "struck_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "probe" ADD CONSTRAINT "probe_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "probe_placement" ADD CONSTRAINT "probe_placement_club_id_probe_id_fkey" FOREIGN KEY ("club_id", "probe_id") REFERENCES "probe"("club_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "probe_placement" ADD CONSTRAINT "probe_placement_club_id_station_id_fkey" FOREIGN KEY ("club_id", "station_id") REFERENCES "station"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "probe_placement" ADD CONSTRAINT "probe_placement_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_club_id_probe_id_fkey" FOREIGN KEY ("club_id", "probe_id") REFERENCES "probe"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reading" ADD CONSTRAINT "reading_club_id_recorded_by_id_fkey" FOREIGN KEY ("club_id", "recorded_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- By hand: what the database itself refuses -------------------------------------------------------------------------------------

alter table setting_check add constraint setting_check_struck_by_somebody
  check ((struck_at is null) = (struck_by_id is null));
alter table probe_placement add constraint probe_placement_in_one_thing check (num_nonnulls(station_id, batch_id) = 1);
alter table probe_placement add constraint probe_placement_ends_after_start check (starts_at < ends_at);
-- A probe is in one place at a time.
alter table probe_placement add constraint probe_once exclude using gist (
  club_id with =, probe_id with =, tstzrange(starts_at, ends_at, '[)') with &&
);
alter table reading add constraint reading_temperature_possible check (temperature_deci_c between -400 and 1500);
create trigger reading_is_history before update or delete or truncate on reading
  for each statement execute function refuse_change();

-- What was seen stays: a setting check can only be struck out, once.
create function keep_setting_check() returns trigger language plpgsql as $$
begin
  if old.struck_at is not null
    or (to_jsonb(new) - '{struck_at,struck_by_id,struck_because}'::text[])
      is distinct from (to_jsonb(old) - '{struck_at,struck_by_id,struck_because}'::text[]) then
    raise check_violation using constraint = 'setting_check_only_struck_out',
      message = 'new row for relation "setting_check" violates check constraint "setting_check_only_struck_out"';
  end if;
  return new;
end $$;
create trigger setting_check_only_struck_out before update on setting_check
  for each row execute function keep_setting_check();
create trigger setting_check_is_history before delete or truncate on setting_check
  for each statement execute function refuse_change();
