-- CreateEnum
CREATE TYPE "origin_style" AS ENUM ('withPercentages', 'namesOnly');

-- Lot codes ------------------------------------------------------------------------------------------------------------------------

-- The check character of ISO/IEC 7064, MOD 37-2: the pure system, whose modulus is prime, so that one wrong character and two that
-- changed places are always noticed.
create function lot_code_check_character(body text) returns text language plpgsql immutable strict as $$
declare
  alphabet constant text := '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*';
  sum int := 0;
begin
  for place in 1 .. length(body) loop
    sum := (sum + position(substr(body, place, 1) in alphabet) - 1) * 2 % 37;
  end loop;
  return substr(alphabet, (38 - sum) % 37 + 1, 1);
end $$;

-- Six characters that neither look nor sound alike, and a check character that is one of them: a draw whose check character is not is
-- drawn again.
create function new_lot_code() returns text language plpgsql volatile as $$
declare
  alphabet constant text := '234678KMRY';
  body text;
begin
  loop
    body := '';
    for place in 1 .. 6 loop
      body := body || substr(alphabet, 1 + floor(random() * length(alphabet))::int, 1);
    end loop;
    if position(lot_code_check_character(body) in alphabet) > 0 then
      return body || lot_code_check_character(body);
    end if;
  end loop;
end $$;

-- AlterTable
ALTER TABLE "lot" ADD COLUMN     "code" TEXT NOT NULL DEFAULT new_lot_code();

-- Lots that are there already got a code each; of one club's, no two may have the same.
do $$
begin
  loop
    update lot set code = new_lot_code() where (club_id, id) in (
      select club_id, id from (select club_id, id, row_number() over (partition by club_id, code order by id) as again from lot) l
      where again > 1);
    exit when not found;
  end loop;
end $$;

-- CreateTable
CREATE TABLE "label_settings" (
    "club_id" UUID NOT NULL,
    "producer" TEXT NOT NULL DEFAULT '',
    "single_source_centi_percent" INTEGER NOT NULL DEFAULT 4500,
    "origins" "origin_style" NOT NULL DEFAULT 'withPercentages',
    "best_before_months" INTEGER,
    "e_mark" BOOLEAN NOT NULL DEFAULT false,
    "quantity_height_tenth_mm" INTEGER NOT NULL DEFAULT 40,
    "language" TEXT NOT NULL DEFAULT 'en',
    "words" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "label_settings_pkey" PRIMARY KEY ("club_id")
);

-- CreateIndex
CREATE UNIQUE INDEX "lot_club_id_code_key" ON "lot"("club_id", "code");

-- AddForeignKey
ALTER TABLE "label_settings" ADD CONSTRAINT "label_settings_club_id_fkey" FOREIGN KEY ("club_id") REFERENCES "club"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A code can be checked by itself, and stands on paper: it never changes.
alter table lot add constraint lot_code_checks
  check (code ~ '^[234678KMRY]{7}$' and lot_code_check_character(left(code, 6)) = right(code, 1));

create function draw_free_lot_code() returns trigger language plpgsql as $$
begin
  while exists (select from lot where club_id = new.club_id and code = new.code) loop
    new.code := new_lot_code();
  end loop;
  return new;
end $$;
create trigger lot_code_is_free before insert on lot for each row execute function draw_free_lot_code();

create function keep_lot_code() returns trigger language plpgsql as $$
begin
  raise check_violation using constraint = 'lot_code_stays',
    message = 'new row for relation "lot" violates check constraint "lot_code_stays"';
end $$;
create trigger lot_code_stays before update of code on lot
  for each row when (new.code <> old.code) execute function keep_lot_code();

-- Labels ---------------------------------------------------------------------------------------------------------------------------

alter table label_settings add constraint label_settings_single_source_possible check (single_source_centi_percent between 1 and 10000);
alter table label_settings add constraint label_settings_best_before_sensible check (best_before_months between 1 and 120);
-- Less than 4 mm is too small to be read in a shop.
alter table label_settings add constraint label_settings_quantity_height check (quantity_height_tenth_mm between 40 and 200);
