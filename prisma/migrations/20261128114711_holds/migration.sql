-- AlterTable
ALTER TABLE "lot_movement" ADD COLUMN     "correction_id" UUID;

-- CreateTable
CREATE TABLE "lot_correction" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "child_id" UUID NOT NULL,
    "wrong_parent_id" UUID NOT NULL,
    "right_parent_id" UUID,
    "mass_g" INTEGER NOT NULL,
    "because" TEXT NOT NULL,
    "recorded_by_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "lot_correction_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "hold" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "lot_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "evidence" TEXT NOT NULL DEFAULT '',
    "placed_by_id" UUID NOT NULL,
    "placed_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "released_at" TIMESTAMPTZ,
    "released_by_id" UUID,
    "released_because" TEXT NOT NULL DEFAULT '',
    "release_evidence" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "hold_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateTable
CREATE TABLE "branch_release" (
    "club_id" UUID NOT NULL,
    "hold_id" UUID NOT NULL,
    "lot_id" UUID NOT NULL,
    "because" TEXT NOT NULL,
    "evidence" TEXT NOT NULL,
    "released_by_id" UUID NOT NULL,
    "released_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "branch_release_pkey" PRIMARY KEY ("club_id","hold_id","lot_id")
);

-- CreateTable
CREATE TABLE "recall_drill" (
    "club_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT uuidv7(),
    "lot_id" UUID NOT NULL,
    "run_by_id" UUID NOT NULL,
    "run_at" TIMESTAMPTZ NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "duration_ms" INTEGER NOT NULL,
    "lots" INTEGER NOT NULL,
    "holders" INTEGER NOT NULL,
    "found_g" INTEGER NOT NULL,
    "sought_g" INTEGER NOT NULL,
    "in_lots_g" INTEGER NOT NULL,
    "potted_g" INTEGER NOT NULL,
    "withdrawn_g" INTEGER NOT NULL,
    "lost_g" INTEGER NOT NULL,

    CONSTRAINT "recall_drill_pkey" PRIMARY KEY ("club_id","id")
);

-- CreateIndex
CREATE INDEX "lot_correction_club_id_child_id_idx" ON "lot_correction"("club_id", "child_id");

-- CreateIndex
CREATE INDEX "hold_club_id_lot_id_idx" ON "hold"("club_id", "lot_id");

-- AddForeignKey
ALTER TABLE "lot_movement" ADD CONSTRAINT "lot_movement_club_id_correction_id_fkey" FOREIGN KEY ("club_id", "correction_id") REFERENCES "lot_correction"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_correction" ADD CONSTRAINT "lot_correction_club_id_child_id_fkey" FOREIGN KEY ("club_id", "child_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_correction" ADD CONSTRAINT "lot_correction_club_id_wrong_parent_id_fkey" FOREIGN KEY ("club_id", "wrong_parent_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_correction" ADD CONSTRAINT "lot_correction_club_id_right_parent_id_fkey" FOREIGN KEY ("club_id", "right_parent_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_correction" ADD CONSTRAINT "lot_correction_club_id_recorded_by_id_fkey" FOREIGN KEY ("club_id", "recorded_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_club_id_placed_by_id_fkey" FOREIGN KEY ("club_id", "placed_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_club_id_released_by_id_fkey" FOREIGN KEY ("club_id", "released_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "branch_release" ADD CONSTRAINT "branch_release_club_id_hold_id_fkey" FOREIGN KEY ("club_id", "hold_id") REFERENCES "hold"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "branch_release" ADD CONSTRAINT "branch_release_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "branch_release" ADD CONSTRAINT "branch_release_club_id_released_by_id_fkey" FOREIGN KEY ("club_id", "released_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recall_drill" ADD CONSTRAINT "recall_drill_club_id_lot_id_fkey" FOREIGN KEY ("club_id", "lot_id") REFERENCES "lot"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recall_drill" ADD CONSTRAINT "recall_drill_club_id_run_by_id_fkey" FOREIGN KEY ("club_id", "run_by_id") REFERENCES "member"("club_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What the database itself refuses -------------------------------------------------------------------------------------------------

-- Holds --------------------------------------------------------------------------------------------------------------------------

alter table hold add constraint hold_released_by_somebody check ((released_at is null) = (released_by_id is null));
create index hold_open on hold (club_id, lot_id) where released_at is null;

-- What leaves a club's lots and what holds them meet on one lock. A movement shares it with other movements until its transaction ends;
-- a hold, or a correction of what went into what, has it alone. So no movement is under way while a hold is placed, and the next one
-- sees the hold.
create function share_lots_lock(club uuid) returns void language sql as $$
  select pg_advisory_xact_lock_shared(hashtextextended('lots of club ' || club::text, 0))
$$;
create function take_lots_lock(club uuid) returns void language sql as $$
  select pg_advisory_xact_lock(hashtextextended('lots of club ' || club::text, 0))
$$;

-- The open holds that reach a lot: some way up from it to the held lot leads through no released lot. Nothing less deep than the held
-- lot can lead there. `offset 0` keeps each look-up by key.
create function holds_reaching(club uuid, of_lot uuid) returns setof uuid language sql stable as $$
  select h.id from hold h join lot held on held.club_id = h.club_id and held.id = h.lot_id
  where h.club_id = club and h.released_at is null and exists (
    with recursive way(id) as (
      select of_lot where not exists (
        select from branch_release b where b.club_id = club and b.hold_id = h.id and b.lot_id = of_lot)
      union
      select i.parent_id from way w
      cross join lateral (select parent_id, parent_depth from lot_input where club_id = club and child_id = w.id offset 0) i
      where (i.parent_depth > held.depth or i.parent_id = h.lot_id) and not exists (
        select from branch_release b where b.club_id = club and b.hold_id = h.id and b.lot_id = i.parent_id)
    )
    select from way where id = h.lot_id)
$$;

-- The lots that a hold reaches, released or not: the held lot and all made of it, but for branches found good.
create function lots_under_hold(club uuid, of_hold uuid) returns setof uuid language sql stable as $$
  with recursive reached(id) as (
    select lot_id from hold where club_id = club and id = of_hold
    union
    select i.child_id from reached r
    cross join lateral (select child_id from lot_input where club_id = club and parent_id = r.id offset 0) i
    where not exists (
      select from branch_release b where b.club_id = club and b.hold_id = of_hold and b.lot_id = i.child_id)
  )
  select id from reached
$$;

-- Holds win every race: nothing leaves a lot after a hold that reaches it was committed. An older snapshot would not see the hold.
create function keep_lot_on_hold() returns trigger language plpgsql as $$
begin
  if current_setting('transaction_isolation') <> 'read committed' then
    raise check_violation using constraint = 'lot_movement_sees_holds',
      message = 'new row for relation "lot_movement" violates check constraint "lot_movement_sees_holds"';
  end if;
  perform share_lots_lock(new.club_id);
  if exists (select from hold where club_id = new.club_id and released_at is null)
      and exists (select from holds_reaching(new.club_id, new.lot_id)) then
    raise check_violation using constraint = 'lot_movement_not_on_hold',
      message = 'new row for relation "lot_movement" violates check constraint "lot_movement_not_on_hold"';
  end if;
  return new;
end $$;
create trigger lot_movement_not_on_hold before insert on lot_movement
  for each row when (new.correction_id is null) execute function keep_lot_on_hold();

create function place_hold_alone() returns trigger language plpgsql as $$
begin
  perform take_lots_lock(new.club_id);
  if new.released_at is not null then
    raise check_violation using constraint = 'hold_starts_open',
      message = 'new row for relation "hold" violates check constraint "hold_starts_open"';
  end if;
  return new;
end $$;
create trigger hold_starts_open before insert on hold for each row execute function place_hold_alone();

create function keep_hold() returns trigger language plpgsql as $$
begin
  if old.released_at is not null or new.released_at is null
      or (new.club_id, new.id, new.lot_id, new.reason, new.evidence, new.placed_by_id, new.placed_at)
        is distinct from (old.club_id, old.id, old.lot_id, old.reason, old.evidence, old.placed_by_id, old.placed_at) then
    raise check_violation using constraint = 'hold_only_released',
      message = 'new row for relation "hold" violates check constraint "hold_only_released"';
  end if;
  return new;
end $$;
create trigger hold_only_released before update on hold for each row execute function keep_hold();

-- A branch is released while the hold is open and reaches it, and is not the held lot itself.
create function keep_branch_release() returns trigger language plpgsql as $$
begin
  perform from hold where club_id = new.club_id and id = new.hold_id for no key update;
  if exists (select from hold where club_id = new.club_id and id = new.hold_id and lot_id = new.lot_id)
      or not exists (select from holds_reaching(new.club_id, new.lot_id) reaching where reaching = new.hold_id) then
    raise check_violation using constraint = 'branch_release_of_reached_lot',
      message = 'new row for relation "branch_release" violates check constraint "branch_release_of_reached_lot"';
  end if;
  return new;
end $$;
create trigger branch_release_of_reached_lot before insert on branch_release for each row execute function keep_branch_release();

-- Corrections --------------------------------------------------------------------------------------------------------------------

alter table lot_correction add constraint lot_correction_has_mass check (mass_g > 0);
alter table lot_correction add constraint lot_correction_changes_something check (wrong_parent_id <> right_parent_id);
-- A correction puts back what was never taken: a movement below nothing.
alter table lot_movement drop constraint lot_movement_has_mass;
alter table lot_movement add constraint lot_movement_has_mass check (mass_g > 0 or mass_g < 0 and correction_id is not null);
alter table lot_movement add constraint lot_movement_corrects_an_input check (correction_id is null or into_lot_id is not null);

-- Of a lot's masses only a correction changes what went into it, and how deep it lies.
create or replace function keep_lot_masses() returns trigger language plpgsql as $$
begin
  if pg_trigger_depth() < 2 or new.initial_mass_g <> old.initial_mass_g then
    raise check_violation using constraint = 'lot_masses_by_movement_only',
      message = 'new row for relation "lot" violates check constraint "lot_masses_by_movement_only"';
  end if;
  return new;
end $$;
create constraint trigger lot_inputs_add_up_for_changed_lot after update of input_mass_g, depth on lot
  deferrable initially deferred for each row execute function check_inputs_of_new_lot();
create constraint trigger lot_inputs_add_up_for_correction after insert on lot_correction
  deferrable initially deferred for each row execute function check_inputs_of_child();

-- An input is what is known now; the movements are its history.
drop trigger lot_input_is_history on lot_input;
create function keep_lot_input() returns trigger language plpgsql as $$
begin
  if pg_trigger_depth() < 2 then
    raise insufficient_privilege using constraint = 'lot_input_is_history',
      message = 'rows of "lot_input" are only ever added, or corrected through "lot_correction"';
  end if;
  return null;
end $$;
create trigger lot_input_is_history before update or delete or truncate on lot_input
  for each statement execute function keep_lot_input();

-- A correction files its movements itself.
drop trigger lot_input_moves_mass on lot_input;
create trigger lot_input_moves_mass after insert on lot_input
  for each row when (pg_trigger_depth() = 0) execute function move_input();

create function refuse_correction(broken text) returns void language plpgsql as $$
begin
  raise check_violation using constraint = broken,
    message = format('new row for relation "lot_correction" violates check constraint "%s"', broken);
end $$;

-- Depths after the child got a parent that lies as deep as itself or deeper: all below it that are not deep enough sink, the lowest first.
create function sink_lots(club uuid, child uuid, to_depth int) returns void language plpgsql as $$
declare
  sunk record;
begin
  for sunk in
    with recursive pushed(id, depth) as (
      select child, to_depth
      union
      select i.child_id, p.depth + 1 from pushed p join lot_input i on i.club_id = club and i.parent_id = p.id
      where i.child_depth <= p.depth
    )
    select id, max(depth) as depth from pushed group by id order by 2 desc
  loop
    update lot set depth = sunk.depth where club_id = club and id = sunk.id;
  end loop;
end $$;

-- Depths after the child lost its deepest parent: all below it rise as far as their inputs let them, the highest first.
create function raise_lots(club uuid, child uuid) returns void language plpgsql as $$
declare
  below uuid;
  risen int;
begin
  for below in
    with recursive reached(id) as (
      select child
      union
      select i.child_id from reached r join lot_input i on i.club_id = club and i.parent_id = r.id
    )
    select l.id from reached r join lot l on l.club_id = club and l.id = r.id order by l.depth
  loop
    select coalesce(max(parent_depth) + 1, 0) into risen from lot_input where club_id = club and child_id = below;
    update lot set depth = risen where club_id = club and id = below and depth <> risen;
  end loop;
end $$;

create function correct_lot_input() returns trigger language plpgsql as $$
declare
  input lot_input%rowtype;
  child lot%rowtype;
  right_depth int;
begin
  perform take_lots_lock(new.club_id);
  select * into child from lot where club_id = new.club_id and id = new.child_id for no key update;
  select * into input from lot_input
    where club_id = new.club_id and child_id = new.child_id and parent_id = new.wrong_parent_id and kind = 'used';
  if not found or input.mass_g < new.mass_g then
    perform refuse_correction('lot_correction_of_an_input');
  end if;

  insert into lot_movement (club_id, lot_id, kind, mass_g, into_lot_id, at, recorded_by_id, correction_id)
  values (new.club_id, new.wrong_parent_id, input.kind, -new.mass_g, new.child_id, input.at, new.recorded_by_id, new.id);
  if input.mass_g = new.mass_g then
    delete from lot_input where club_id = new.club_id and child_id = new.child_id and parent_id = new.wrong_parent_id;
  else
    update lot_input set mass_g = mass_g - new.mass_g
    where club_id = new.club_id and child_id = new.child_id and parent_id = new.wrong_parent_id;
  end if;

  if new.right_parent_id is null then
    update lot set input_mass_g = input_mass_g - new.mass_g, depth = case when input_mass_g = new.mass_g then 0 else depth end
    where club_id = new.club_id and id = new.child_id;
  else
    select depth into right_depth from lot where club_id = new.club_id and id = new.right_parent_id;
    if right_depth >= child.depth then
      if exists (
        with recursive below(id) as (
          select new.child_id
          union
          select i.child_id from below b join lot_input i on i.club_id = new.club_id and i.parent_id = b.id
          where i.child_depth <= right_depth
        )
        select from below where id = new.right_parent_id
      ) then
        perform refuse_correction('lot_input_never_circles');
      end if;
      perform sink_lots(new.club_id, new.child_id, right_depth + 1);
    end if;
    insert into lot_movement (club_id, lot_id, kind, mass_g, into_lot_id, at, recorded_by_id, correction_id)
    values (new.club_id, new.right_parent_id, input.kind, new.mass_g, new.child_id, input.at, new.recorded_by_id, new.id);
    insert into lot_input (club_id, child_id, parent_id, mass_g, kind, child_input_mass_g, child_depth, parent_depth, at, recorded_by_id)
    select new.club_id, new.child_id, new.right_parent_id, new.mass_g, input.kind, c.input_mass_g, c.depth, right_depth, input.at,
      new.recorded_by_id
    from lot c where c.club_id = new.club_id and c.id = new.child_id
    on conflict (club_id, child_id, parent_id) do update set mass_g = lot_input.mass_g + excluded.mass_g;
  end if;
  if input.parent_depth = child.depth - 1 then
    perform raise_lots(new.club_id, new.child_id);
  end if;
  return null;
end $$;
create trigger lot_correction_mends_input after insert on lot_correction
  for each row execute function correct_lot_input();

-- Drills and history -------------------------------------------------------------------------------------------------------------

alter table recall_drill add constraint recall_drill_counts_from_nothing
  check (duration_ms >= 0 and lots >= 0 and holders >= 0 and in_lots_g >= 0 and potted_g >= 0 and withdrawn_g >= 0 and lost_g >= 0);
alter table recall_drill add constraint recall_drill_adds_up check (found_g = in_lots_g + potted_g + withdrawn_g + lost_g);

create trigger hold_is_history before delete or truncate on hold for each statement execute function refuse_change();
create trigger branch_release_is_history before update or delete or truncate on branch_release
  for each statement execute function refuse_change();
create trigger lot_correction_is_history before update or delete or truncate on lot_correction
  for each statement execute function refuse_change();
create trigger recall_drill_is_history before update or delete or truncate on recall_drill
  for each statement execute function refuse_change();
