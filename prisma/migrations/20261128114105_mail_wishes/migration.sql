-- AlterTable
ALTER TABLE "notice" ADD COLUMN     "mail_wanted" BOOLEAN NOT NULL DEFAULT true;

-- AlterTable
ALTER TABLE "person" ADD COLUMN     "mail_notices" BOOLEAN NOT NULL DEFAULT true;

-- CreateTable
CREATE TABLE "calendar_feed" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "member_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "secret_hash" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "last_used_at" TIMESTAMPTZ,

    CONSTRAINT "calendar_feed_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateIndex
CREATE UNIQUE INDEX "calendar_feed_secret_hash_key" ON "calendar_feed"("secret_hash");

-- CreateIndex
CREATE INDEX "calendar_feed_club_id_member_id_idx" ON "calendar_feed"("club_id", "member_id");

-- AddForeignKey
ALTER TABLE "calendar_feed" ADD CONSTRAINT "calendar_feed_club_id_member_id_fkey" FOREIGN KEY ("club_id", "member_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Those that are still to be mailed, for whoever looks each minute.
create index notice_to_mail on notice (created_at) where mail_wanted and mailed_at is null;
