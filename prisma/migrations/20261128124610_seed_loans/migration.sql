-- CreateEnum
CREATE TYPE "loan_state" AS ENUM ('asked', 'offered', 'accepted', 'declined', 'withdrawn', 'lent', 'returned', 'forgiven');

-- CreateEnum
CREATE TYPE "loan_beginning" AS ENUM ('asked', 'offered', 'lent');

-- AlterTable
ALTER TABLE "loan" ADD COLUMN     "accepted_at" TIMESTAMPTZ,
ADD COLUMN     "began_as" "loan_beginning" NOT NULL DEFAULT 'lent',
ADD COLUMN     "begun_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
ADD COLUMN     "ended_at" TIMESTAMPTZ,
ADD COLUMN     "ended_because" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "ended_by_id" UUID,
ADD COLUMN     "forgiven_mass_g" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "returned_mass_g" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "state" "loan_state" NOT NULL DEFAULT 'lent',
ALTER COLUMN "lender_id" DROP NOT NULL,
ALTER COLUMN "from_lot_id" DROP NOT NULL,
ALTER COLUMN "to_lot_id" DROP NOT NULL,
ALTER COLUMN "lent_at" DROP NOT NULL;

-- CreateTable
CREATE TABLE "loan_return" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "loan_id" UUID NOT NULL,
    "from_lot_id" UUID NOT NULL,
    "to_lot_id" UUID NOT NULL,
    "mass_g" INTEGER NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "recorded_by_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "loan_return_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateIndex
CREATE INDEX "loan_return_club_id_loan_id_id_idx" ON "loan_return"("club_id", "loan_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "loan_return_club_id_to_lot_id_key" ON "loan_return"("club_id", "to_lot_id");

-- CreateIndex
CREATE INDEX "loan_club_id_from_lot_id_idx" ON "loan"("club_id", "from_lot_id");

-- CreateIndex
CREATE INDEX "loan_club_id_lender_id_idx" ON "loan"("club_id", "lender_id");

-- CreateIndex
CREATE INDEX "loan_club_id_borrower_id_idx" ON "loan"("club_id", "borrower_id");

-- AddForeignKey
ALTER TABLE "loan" ADD CONSTRAINT "loan_club_id_ended_by_id_fkey" FOREIGN KEY ("club_id", "ended_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan_return" ADD CONSTRAINT "loan_return_club_id_loan_id_fkey" FOREIGN KEY ("club_id", "loan_id") REFERENCES "loan"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan_return" ADD CONSTRAINT "loan_return_club_id_from_lot_id_fkey" FOREIGN KEY ("club_id", "from_lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan_return" ADD CONSTRAINT "loan_return_club_id_to_lot_id_fkey" FOREIGN KEY ("club_id", "to_lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "loan_return" ADD CONSTRAINT "loan_return_club_id_recorded_by_id_fkey" FOREIGN KEY ("club_id", "recorded_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What was lent before could only be handed over at once.
update loan set begun_at = lent_at;

-- What the database itself refuses -------------------------------------------------------------------------------------------------

-- Only what is asked for from anybody has no lender yet.
alter table loan add constraint loan_has_lender
  check (lender_id is not null or (began_as = 'asked' and state in ('asked', 'withdrawn')));
alter table loan add constraint loan_handed_over_with_its_lots
  check ((state in ('lent', 'returned', 'forgiven')) = (to_lot_id is not null) and (to_lot_id is null) = (lent_at is null)
    and (to_lot_id is null or from_lot_id is not null));
-- Nothing is given back or forgiven that is not owed.
alter table loan add constraint loan_returned_and_forgiven_within_lent
  check (returned_mass_g >= 0 and forgiven_mass_g >= 0 and returned_mass_g + forgiven_mass_g <= mass_g);
alter table loan add constraint loan_state_tells_what_is_owed check (case state
  when 'lent' then returned_mass_g + forgiven_mass_g < mass_g
  when 'returned' then returned_mass_g = mass_g
  when 'forgiven' then forgiven_mass_g > 0 and returned_mass_g + forgiven_mass_g = mass_g
  else returned_mass_g = 0 and forgiven_mass_g = 0 end);
alter table loan add constraint loan_ended_or_not
  check ((ended_at is not null) = (state in ('declined', 'withdrawn', 'returned', 'forgiven'))
    and (ended_at is null) = (ended_by_id is null));
alter table loan_return add constraint loan_return_has_mass check (mass_g > 0);

-- What was handed over is a part of a lot of the lender's, and is a lot of the borrower's.
create function check_lent_lot() returns trigger language plpgsql as $$
begin
  if not exists (
    select from lot t
    join lot_input i on i.club_id = t.club_id and i.child_id = t.id
    join lot f on f.club_id = i.club_id and f.id = i.parent_id
    where t.club_id = new.club_id and t.id = new.to_lot_id and t.kind = 'seed' and t.holder_id = new.borrower_id
      and t.initial_mass_g = new.mass_g and i.kind = 'lent' and i.mass_g = new.mass_g
      and f.id = new.from_lot_id and f.holder_id = new.lender_id) then
    raise check_violation using constraint = 'loan_lot_goes_to_borrower',
      message = 'new row for relation "loan" violates check constraint "loan_lot_goes_to_borrower"';
  end if;
  return null;
end $$;
create trigger loan_lot_goes_to_borrower after insert or update of to_lot_id on loan
  for each row when (new.to_lot_id is not null) execute function check_lent_lot();

-- Once handed over the loan stands; what is given back changes by returns alone; once over it is over.
create function keep_loan() returns trigger language plpgsql as $$
declare
  broken text;
begin
  if old.ended_at is not null and
    (new.state, new.returned_mass_g, new.forgiven_mass_g, new.ended_at) is distinct from
    (old.state, old.returned_mass_g, old.forgiven_mass_g, old.ended_at) then
    broken := 'loan_once_over_is_over';
  elsif old.to_lot_id is not null and
    (new.lender_id, new.borrower_id, new.from_lot_id, new.to_lot_id, new.mass_g, new.lent_at) is distinct from
    (old.lender_id, old.borrower_id, old.from_lot_id, old.to_lot_id, old.mass_g, old.lent_at) then
    broken := 'loan_stands_once_handed_over';
  elsif new.returned_mass_g <> old.returned_mass_g and pg_trigger_depth() < 2 then
    broken := 'loan_paid_by_returns_only';
  end if;
  if broken is not null then
    raise check_violation using constraint = broken,
      message = format('new row for relation "loan" violates check constraint "%s"', broken);
  end if;
  return new;
end $$;
create trigger loan_stands before update on loan for each row execute function keep_loan();
create function keep_handed_over_loan() returns trigger language plpgsql as $$
begin
  raise insufficient_privilege using constraint = 'loan_is_history',
    message = 'a loan that was handed over is kept';
end $$;
create trigger loan_is_history before delete on loan
  for each row when (old.to_lot_id is not null) execute function keep_handed_over_loan();

-- A return goes from a lot of the borrower's into a lot of the lender's, after the seed was lent, and pays the loan down.
create function pay_loan_down() returns trigger language plpgsql as $$
declare
  owing loan%rowtype;
begin
  select * into owing from loan where club_id = new.club_id and id = new.loan_id for no key update;
  if not exists (
    select from lot t
    join lot_input i on i.club_id = t.club_id and i.child_id = t.id
    join lot f on f.club_id = i.club_id and f.id = i.parent_id
    where t.club_id = new.club_id and t.id = new.to_lot_id and t.kind = 'seed' and t.holder_id = owing.lender_id
      and t.initial_mass_g = new.mass_g and i.kind = 'lent' and i.mass_g = new.mass_g
      and f.id = new.from_lot_id and f.holder_id = owing.borrower_id) then
    raise check_violation using constraint = 'loan_return_goes_to_lender',
      message = 'new row for relation "loan_return" violates check constraint "loan_return_goes_to_lender"';
  end if;
  if new.at < owing.lent_at then
    raise check_violation using constraint = 'loan_return_after_lending',
      message = 'new row for relation "loan_return" violates check constraint "loan_return_after_lending"';
  end if;
  update loan set
    returned_mass_g = returned_mass_g + new.mass_g,
    state = case when returned_mass_g + new.mass_g = mass_g then 'returned' else state end,
    ended_at = case when returned_mass_g + new.mass_g = mass_g then new.recorded_at end,
    ended_by_id = case when returned_mass_g + new.mass_g = mass_g then new.recorded_by_id end
  where club_id = new.club_id and id = new.loan_id;
  return null;
end $$;
create trigger loan_return_pays_down after insert on loan_return
  for each row execute function pay_loan_down();
create trigger loan_return_is_history before update or delete or truncate on loan_return
  for each statement execute function refuse_change();
