-- CreateEnum
CREATE TYPE "token_scope" AS ENUM ('read', 'record', 'book', 'steward');

-- CreateEnum
CREATE TYPE "role" AS ENUM ('member', 'steward');

-- CreateEnum
CREATE TYPE "grain" AS ENUM ('fine', 'medium', 'coarse');

-- CreateEnum
CREATE TYPE "duty" AS ENUM ('warm', 'cool', 'bench');

-- CreateEnum
CREATE TYPE "lot_kind" AS ENUM ('honey', 'seed', 'creamed');

-- CreateEnum
CREATE TYPE "movement_kind" AS ENUM ('used', 'lent', 'potted', 'lost');

-- CreateEnum
CREATE TYPE "step_kind" AS ENUM ('loaded', 'cleared', 'cooled', 'seeded', 'potted', 'shelved', 'set', 'abandoned');

-- CreateEnum
CREATE TYPE "setting_state" AS ENUM ('liquid', 'thickening', 'set');

-- CreateEnum
CREATE TYPE "texture" AS ENUM ('smooth', 'grainy', 'gritty');

-- CreateEnum
CREATE TYPE "firmness" AS ENUM ('soft', 'spreadable', 'firm', 'hard');

-- CreateTable
CREATE TABLE "person" (
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "password_hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "person_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "session" (
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "person_id" UUID NOT NULL,
    "secret_hash" BYTEA NOT NULL,
    "device" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_used_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ NOT NULL,

    CONSTRAINT "session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "token" (
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "person_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "secret_hash" BYTEA NOT NULL,
    "ending" TEXT NOT NULL,
    "scopes" "token_scope"[],
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ NOT NULL,
    "last_used_at" TIMESTAMPTZ,

    CONSTRAINT "token_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "club" (
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "name" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "club_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "member" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "person_id" UUID NOT NULL,
    "role" "role" NOT NULL,
    "joined_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "left_at" TIMESTAMPTZ,

    CONSTRAINT "member_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "invitation" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "code_hash" BYTEA NOT NULL,
    "role" "role" NOT NULL,
    "invited_by_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ NOT NULL,
    "accepted_at" TIMESTAMPTZ,
    "accepted_by_id" UUID,

    CONSTRAINT "invitation_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "floral_source" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "name" TEXT NOT NULL,
    "grain" "grain" NOT NULL,
    "sets" BOOLEAN NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "floral_source_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "station" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "name" TEXT NOT NULL,
    "place_load_g" INTEGER NOT NULL,
    "changeover_minutes" INTEGER NOT NULL,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "station_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "station_duty" (
    "club_id" UUID NOT NULL,
    "station_id" UUID NOT NULL,
    "duty" "duty" NOT NULL,
    "min_deci_c" INTEGER NOT NULL,
    "max_deci_c" INTEGER NOT NULL,

    CONSTRAINT "station_duty_pkey" PRIMARY KEY ("club_id","station_id","duty")
);

-- CreateTable
CREATE TABLE "place" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "station_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,

    CONSTRAINT "place_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "closure" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "station_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ NOT NULL,
    "ends_at" TIMESTAMPTZ NOT NULL,
    "reason" TEXT NOT NULL,
    "closed_by_id" UUID NOT NULL,

    CONSTRAINT "closure_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "booking" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "station_id" UUID NOT NULL,
    "duty" "duty" NOT NULL,
    "member_id" UUID NOT NULL,
    "batch_id" UUID,
    "min_deci_c" INTEGER NOT NULL,
    "max_deci_c" INTEGER NOT NULL,
    "starts_at" TIMESTAMPTZ NOT NULL,
    "ends_at" TIMESTAMPTZ NOT NULL,
    "changeover_minutes" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "released_at" TIMESTAMPTZ,
    "cancelled_at" TIMESTAMPTZ,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "booking_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "booking_place" (
    "club_id" UUID NOT NULL,
    "booking_id" UUID NOT NULL,
    "place_id" UUID NOT NULL,
    "station_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ NOT NULL,
    "ends_at" TIMESTAMPTZ NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "booking_place_pkey" PRIMARY KEY ("club_id","booking_id","place_id")
);

-- CreateTable
CREATE TABLE "temperature_claim" (
    "club_id" UUID NOT NULL,
    "booking_id" UUID NOT NULL,
    "above" BOOLEAN NOT NULL,
    "station_id" UUID NOT NULL,
    "low_deci_c" INTEGER NOT NULL,
    "high_deci_c" INTEGER,
    "starts_at" TIMESTAMPTZ NOT NULL,
    "ends_at" TIMESTAMPTZ NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "temperature_claim_pkey" PRIMARY KEY ("club_id","booking_id","above")
);

-- CreateTable
CREATE TABLE "lot" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "kind" "lot_kind" NOT NULL,
    "name" TEXT NOT NULL,
    "holder_id" UUID NOT NULL,
    "initial_mass_g" INTEGER NOT NULL,
    "remaining_mass_g" INTEGER NOT NULL,
    "used_mass_g" INTEGER NOT NULL DEFAULT 0,
    "lent_mass_g" INTEGER NOT NULL DEFAULT 0,
    "potted_mass_g" INTEGER NOT NULL DEFAULT 0,
    "lost_mass_g" INTEGER NOT NULL DEFAULT 0,
    "input_mass_g" INTEGER NOT NULL DEFAULT 0,
    "depth" INTEGER NOT NULL DEFAULT 0,
    "moisture_centi_percent" INTEGER,
    "refractive_index_e5" INTEGER,
    "read_at_deci_c" INTEGER,
    "extracted_on" DATE,
    "origin" TEXT NOT NULL DEFAULT '',
    "grain" "grain",
    "note" TEXT NOT NULL DEFAULT '',
    "batch_id" UUID,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "lot_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "lot_floral_share" (
    "club_id" UUID NOT NULL,
    "lot_id" UUID NOT NULL,
    "floral_source_id" UUID NOT NULL,
    "centi_percent" INTEGER NOT NULL,

    CONSTRAINT "lot_floral_share_pkey" PRIMARY KEY ("club_id","lot_id","floral_source_id")
);

-- CreateTable
CREATE TABLE "lot_origin_share" (
    "club_id" UUID NOT NULL,
    "lot_id" UUID NOT NULL,
    "country_code" CHAR(2) NOT NULL,
    "centi_percent" INTEGER NOT NULL,

    CONSTRAINT "lot_origin_share_pkey" PRIMARY KEY ("club_id","lot_id","country_code")
);

-- CreateTable
CREATE TABLE "lot_input" (
    "club_id" UUID NOT NULL,
    "child_id" UUID NOT NULL,
    "parent_id" UUID NOT NULL,
    "mass_g" INTEGER NOT NULL,
    "kind" "movement_kind" NOT NULL DEFAULT 'used',
    "child_input_mass_g" INTEGER NOT NULL,
    "child_depth" INTEGER NOT NULL,
    "parent_depth" INTEGER NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "recorded_by_id" UUID NOT NULL,

    CONSTRAINT "lot_input_pkey" PRIMARY KEY ("club_id","child_id","parent_id")
);

-- CreateTable
CREATE TABLE "lot_movement" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "lot_id" UUID NOT NULL,
    "kind" "movement_kind" NOT NULL,
    "mass_g" INTEGER NOT NULL,
    "into_lot_id" UUID,
    "at" TIMESTAMPTZ NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "recorded_by_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "lot_movement_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "batch" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "name" TEXT NOT NULL,
    "member_id" UUID NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "batch_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "batch_honey" (
    "club_id" UUID NOT NULL,
    "batch_id" UUID NOT NULL,
    "lot_id" UUID NOT NULL,
    "mass_g" INTEGER NOT NULL,

    CONSTRAINT "batch_honey_pkey" PRIMARY KEY ("club_id","batch_id","lot_id")
);

-- CreateTable
CREATE TABLE "batch_step" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "batch_id" UUID NOT NULL,
    "kind" "step_kind" NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "temperature_deci_c" INTEGER,
    "note" TEXT NOT NULL DEFAULT '',
    "recorded_by_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "batch_step_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "batch_pots" (
    "club_id" UUID NOT NULL,
    "batch_id" UUID NOT NULL,
    "net_mass_g" INTEGER NOT NULL,
    "count" INTEGER NOT NULL,

    CONSTRAINT "batch_pots_pkey" PRIMARY KEY ("club_id","batch_id","net_mass_g")
);

-- CreateTable
CREATE TABLE "setting_check" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "batch_id" UUID NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "state" "setting_state" NOT NULL,
    "texture" "texture",
    "firmness" "firmness",
    "temperature_deci_c" INTEGER,
    "note" TEXT NOT NULL DEFAULT '',
    "checked_by_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "setting_check_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "loan" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "lender_id" UUID NOT NULL,
    "borrower_id" UUID NOT NULL,
    "from_lot_id" UUID NOT NULL,
    "to_lot_id" UUID NOT NULL,
    "mass_g" INTEGER NOT NULL,
    "lent_at" TIMESTAMPTZ NOT NULL,
    "due_on" DATE,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "loan_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "audit_entry" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "person_id" UUID NOT NULL,
    "token_id" UUID,
    "request_id" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "details" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "audit_entry_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "idempotency_key" (
    "person_id" UUID NOT NULL,
    "route" TEXT NOT NULL,
    "key_hash" BYTEA NOT NULL,
    "fingerprint" BYTEA NOT NULL,
    "answer" BYTEA,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "idempotency_key_pkey" PRIMARY KEY ("person_id","route","key_hash")
);

-- CreateTable
CREATE TABLE "rate_limit" (
    "key" VARCHAR(255) NOT NULL,
    "points" INTEGER NOT NULL DEFAULT 0,
    "expire" BIGINT,

    CONSTRAINT "rate_limit_pkey" PRIMARY KEY ("key")
);

-- CreateIndex
CREATE UNIQUE INDEX "person_email_key" ON "person"("email");

-- CreateIndex
CREATE UNIQUE INDEX "session_secret_hash_key" ON "session"("secret_hash");

-- CreateIndex
CREATE INDEX "session_person_id_idx" ON "session"("person_id");

-- CreateIndex
CREATE UNIQUE INDEX "token_secret_hash_key" ON "token"("secret_hash");

-- CreateIndex
CREATE INDEX "token_person_id_idx" ON "token"("person_id");

-- CreateIndex
CREATE INDEX "member_person_id_idx" ON "member"("person_id");

-- CreateIndex
CREATE UNIQUE INDEX "member_club_id_person_id_key" ON "member"("club_id", "person_id");

-- CreateIndex
CREATE UNIQUE INDEX "invitation_code_hash_key" ON "invitation"("code_hash");

-- CreateIndex
CREATE UNIQUE INDEX "floral_source_club_id_name_key" ON "floral_source"("club_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "station_club_id_name_key" ON "station"("club_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "place_club_id_station_id_number_key" ON "place"("club_id", "station_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "place_club_id_station_id_id_key" ON "place"("club_id", "station_id", "id");

-- CreateIndex
CREATE INDEX "closure_club_id_station_id_starts_at_idx" ON "closure"("club_id", "station_id", "starts_at");

-- CreateIndex
CREATE INDEX "booking_club_id_starts_at_id_idx" ON "booking"("club_id", "starts_at", "id");

-- CreateIndex
CREATE INDEX "booking_club_id_station_id_ends_at_idx" ON "booking"("club_id", "station_id", "ends_at");

-- CreateIndex
CREATE INDEX "booking_club_id_member_id_starts_at_idx" ON "booking"("club_id", "member_id", "starts_at");

-- CreateIndex
CREATE INDEX "booking_club_id_batch_id_idx" ON "booking"("club_id", "batch_id");

-- CreateIndex
CREATE UNIQUE INDEX "booking_club_id_id_station_id_starts_at_ends_at_active_key" ON "booking"("club_id", "id", "station_id", "starts_at", "ends_at", "active");

-- CreateIndex
CREATE INDEX "lot_club_id_holder_id_idx" ON "lot"("club_id", "holder_id");

-- CreateIndex
CREATE INDEX "lot_club_id_batch_id_idx" ON "lot"("club_id", "batch_id");

-- CreateIndex
CREATE UNIQUE INDEX "lot_club_id_id_depth_input_mass_g_key" ON "lot"("club_id", "id", "depth", "input_mass_g");

-- CreateIndex
CREATE UNIQUE INDEX "lot_club_id_id_depth_key" ON "lot"("club_id", "id", "depth");

-- CreateIndex
CREATE INDEX "lot_floral_share_club_id_floral_source_id_idx" ON "lot_floral_share"("club_id", "floral_source_id");

-- CreateIndex
CREATE INDEX "lot_input_club_id_parent_id_child_id_idx" ON "lot_input"("club_id", "parent_id", "child_id");

-- CreateIndex
CREATE INDEX "lot_movement_club_id_lot_id_idx" ON "lot_movement"("club_id", "lot_id");

-- CreateIndex
CREATE INDEX "batch_club_id_member_id_idx" ON "batch"("club_id", "member_id");

-- CreateIndex
CREATE INDEX "batch_honey_club_id_lot_id_idx" ON "batch_honey"("club_id", "lot_id");

-- CreateIndex
CREATE UNIQUE INDEX "batch_step_club_id_batch_id_kind_key" ON "batch_step"("club_id", "batch_id", "kind");

-- CreateIndex
CREATE INDEX "setting_check_club_id_batch_id_at_idx" ON "setting_check"("club_id", "batch_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "loan_club_id_to_lot_id_key" ON "loan"("club_id", "to_lot_id");

-- CreateIndex
CREATE INDEX "audit_entry_club_id_subject_id_idx" ON "audit_entry"("club_id", "subject_id");

-- CreateIndex
CREATE INDEX "idempotency_key_created_at_idx" ON "idempotency_key"("created_at");

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "token" ADD CONSTRAINT "token_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "member" ADD CONSTRAINT "member_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "member" ADD CONSTRAINT "member_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_club_id_invited_by_id_fkey" FOREIGN KEY ("club_id", "invited_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_club_id_accepted_by_id_fkey" FOREIGN KEY ("club_id", "accepted_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "floral_source" ADD CONSTRAINT "floral_source_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "station" ADD CONSTRAINT "station_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "station_duty" ADD CONSTRAINT "station_duty_club_id_station_id_fkey" FOREIGN KEY ("club_id", "station_id") REFERENCES "station"("club_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "place" ADD CONSTRAINT "place_club_id_station_id_fkey" FOREIGN KEY ("club_id", "station_id") REFERENCES "station"("club_id", "id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "closure" ADD CONSTRAINT "closure_club_id_station_id_fkey" FOREIGN KEY ("club_id", "station_id") REFERENCES "station"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "closure" ADD CONSTRAINT "closure_club_id_closed_by_id_fkey" FOREIGN KEY ("club_id", "closed_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "booking" ADD CONSTRAINT "booking_club_id_station_id_duty_fkey" FOREIGN KEY ("club_id", "station_id", "duty") REFERENCES "station_duty"("club_id", "station_id", "duty") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "booking" ADD CONSTRAINT "booking_club_id_member_id_fkey" FOREIGN KEY ("club_id", "member_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "booking" ADD CONSTRAINT "booking_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "booking_place" ADD CONSTRAINT "booking_place_club_id_station_id_place_id_fkey" FOREIGN KEY ("club_id", "station_id", "place_id") REFERENCES "place"("club_id", "station_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "booking_place" ADD CONSTRAINT "booking_place_club_id_booking_id_station_id_starts_at_ends_fkey" FOREIGN KEY ("club_id", "booking_id", "station_id", "starts_at", "ends_at", "active") REFERENCES "booking"("club_id", "id", "station_id", "starts_at", "ends_at", "active") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "temperature_claim" ADD CONSTRAINT "temperature_claim_club_id_booking_id_station_id_starts_at__fkey" FOREIGN KEY ("club_id", "booking_id", "station_id", "starts_at", "ends_at", "active") REFERENCES "booking"("club_id", "id", "station_id", "starts_at", "ends_at", "active") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot" ADD CONSTRAINT "lot_club_id_holder_id_fkey" FOREIGN KEY ("club_id", "holder_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot" ADD CONSTRAINT "lot_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_floral_share" ADD CONSTRAINT "lot_floral_share_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_floral_share" ADD CONSTRAINT "lot_floral_share_club_id_floral_source_id_fkey" FOREIGN KEY ("club_id", "floral_source_id") REFERENCES "floral_source"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_origin_share" ADD CONSTRAINT "lot_origin_share_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_input" ADD CONSTRAINT "lot_input_club_id_child_id_child_depth_child_input_mass_g_fkey" FOREIGN KEY ("club_id", "child_id", "child_depth", "child_input_mass_g") REFERENCES "lot"("club_id", "id", "depth", "input_mass_g") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_input" ADD CONSTRAINT "lot_input_club_id_parent_id_parent_depth_fkey" FOREIGN KEY ("club_id", "parent_id", "parent_depth") REFERENCES "lot"("club_id", "id", "depth") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_movement" ADD CONSTRAINT "lot_movement_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_movement" ADD CONSTRAINT "lot_movement_club_id_into_lot_id_fkey" FOREIGN KEY ("club_id", "into_lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_movement" ADD CONSTRAINT "lot_movement_club_id_recorded_by_id_fkey" FOREIGN KEY ("club_id", "recorded_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch" ADD CONSTRAINT "batch_club_id_member_id_fkey" FOREIGN KEY ("club_id", "member_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_honey" ADD CONSTRAINT "batch_honey_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_honey" ADD CONSTRAINT "batch_honey_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_step" ADD CONSTRAINT "batch_step_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_step" ADD CONSTRAINT "batch_step_club_id_recorded_by_id_fkey" FOREIGN KEY ("club_id", "recorded_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "batch_pots" ADD CONSTRAINT "batch_pots_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "setting_check" ADD CONSTRAINT "setting_check_club_id_batch_id_fkey" FOREIGN KEY ("club_id", "batch_id") REFERENCES "batch"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "setting_check" ADD CONSTRAINT "setting_check_club_id_checked_by_id_fkey" FOREIGN KEY ("club_id", "checked_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan" ADD CONSTRAINT "loan_club_id_lender_id_fkey" FOREIGN KEY ("club_id", "lender_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan" ADD CONSTRAINT "loan_club_id_borrower_id_fkey" FOREIGN KEY ("club_id", "borrower_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan" ADD CONSTRAINT "loan_club_id_from_lot_id_fkey" FOREIGN KEY ("club_id", "from_lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan" ADD CONSTRAINT "loan_club_id_to_lot_id_fkey" FOREIGN KEY ("club_id", "to_lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "audit_entry" ADD CONSTRAINT "audit_entry_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
