-- What the database itself refuses, whatever the application does. The names are an interface: src/platform/database-refusal.ts turns
-- them into refusals, and test/database proves each one.

-- Lets an id sit in a GiST index beside a range.
create extension if not exists btree_gist;

-- People -------------------------------------------------------------------------------------------------------------------------

alter table person add constraint person_email_lower_case check (email = lower(email));
alter table invitation add constraint invitation_accepted_by_somebody
  check ((accepted_at is null) = (accepted_by_id is null));

-- Stations -----------------------------------------------------------------------------------------------------------------------

alter table station add constraint station_bears_something check (place_load_g > 0);
alter table station add constraint station_changeover_sensible check (changeover_minutes between 0 and 10080);
alter table station_duty add constraint station_duty_band_in_order check (min_deci_c <= max_deci_c);
alter table place add constraint place_number_counts_from_one check (number > 0);

-- Bookings -----------------------------------------------------------------------------------------------------------------------

-- An empty time overlaps nothing, so it must not exist.
alter table booking add constraint booking_ends_after_start check (starts_at < ends_at);
alter table closure add constraint closure_ends_after_start check (starts_at < ends_at);
alter table booking add constraint booking_band_in_order check (min_deci_c <= max_deci_c);
alter table booking add constraint booking_changeover_sensible check (changeover_minutes between 0 and 10080);
alter table booking add constraint booking_active_unless_cancelled check (active = (cancelled_at is null));

-- One place, one booking at a time.
alter table booking_place add constraint place_once exclude using gist (
  club_id with =, place_id with =, tstzrange(starts_at, ends_at, '[)') with &&
) where (active);

-- One station, one duty at a time, with the changeover behind each booking. A sum with timestamptz is only STABLE; in UTC wall time
-- it is IMMUTABLE.
alter table booking add constraint one_duty_at_a_time exclude using gist (
  club_id with =, station_id with =, duty with <>,
  tsrange(starts_at at time zone 'UTC', (ends_at at time zone 'UTC') + make_interval(mins => changeover_minutes), '[)') with &&
) where (active);

-- Bookings of one station that overlap in time share a temperature. "Does not overlap" is no operator of GiST; "the lowest that one
-- needs lies above the highest that the other bears" is an overlap of two ranges.
alter table temperature_claim add constraint temperatures_agree exclude using gist (
  club_id with =, station_id with =, above with <>,
  int4range(low_deci_c, high_deci_c, '[]') with &&, tstzrange(starts_at, ends_at, '[)') with &&
) where (active);

create function file_temperature_claims() returns trigger language plpgsql as $$
begin
  insert into temperature_claim (club_id, booking_id, above, station_id, low_deci_c, high_deci_c, starts_at, ends_at, active)
  values (new.club_id, new.id, false, new.station_id, new.min_deci_c, new.min_deci_c, new.starts_at, new.ends_at, new.active),
         (new.club_id, new.id, true, new.station_id, new.max_deci_c + 1, null, new.starts_at, new.ends_at, new.active);
  return null;
end $$;
create trigger booking_files_claims after insert or update of min_deci_c, max_deci_c on booking
  for each row execute function file_temperature_claims();

-- Before the band changes its claims go, so that a booking moved in time and band at once never stands at the new time with the old band.
create function withdraw_temperature_claims() returns trigger language plpgsql as $$
begin
  delete from temperature_claim where club_id = old.club_id and booking_id = old.id;
  return new;
end $$;
create trigger booking_withdraws_claims before update of min_deci_c, max_deci_c on booking
  for each row execute function withdraw_temperature_claims();

-- No booking runs into a closure. Both sides lock the station first: the one that comes second sees the other.
create function keep_booking_out_of_closures() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from closure where club_id = new.club_id and station_id = new.station_id
             and starts_at < new.ends_at and ends_at > new.starts_at) then
    raise exclusion_violation using constraint = 'booking_outside_closures',
      message = 'conflicting key value violates exclusion constraint "booking_outside_closures"';
  end if;
  return null;
end $$;
create trigger booking_outside_closures after insert or update of station_id, starts_at, ends_at, active on booking
  for each row when (new.active) execute function keep_booking_out_of_closures();

create function keep_closure_off_bookings() returns trigger language plpgsql as $$
begin
  perform from station where club_id = new.club_id and id = new.station_id for no key update;
  if exists (select from booking where club_id = new.club_id and station_id = new.station_id and active
             and starts_at < new.ends_at and ends_at > new.starts_at) then
    raise exclusion_violation using constraint = 'closure_off_bookings',
      message = 'conflicting key value violates exclusion constraint "closure_off_bookings"';
  end if;
  return null;
end $$;
create trigger closure_off_bookings after insert or update on closure
  for each row execute function keep_closure_off_bookings();

-- Lots ---------------------------------------------------------------------------------------------------------------------------

-- The ledger closes, to the gram, and nothing is drawn that is not there.
alter table lot add constraint lot_ledger_closes
  check (initial_mass_g = remaining_mass_g + used_mass_g + lent_mass_g + potted_mass_g + lost_mass_g);
alter table lot add constraint lot_not_overdrawn check (remaining_mass_g >= 0);
alter table lot add constraint lot_masses_not_negative
  check (used_mass_g >= 0 and lent_mass_g >= 0 and potted_mass_g >= 0 and lost_mass_g >= 0);
alter table lot add constraint lot_has_mass check (initial_mass_g > 0);
alter table lot add constraint lot_moisture_possible check (moisture_centi_percent between 0 and 10000);
alter table lot add constraint lot_depth_not_negative check (depth >= 0);
alter table lot add constraint lot_made_of_no_less_than_its_mass check (depth = 0 and input_mass_g = 0 or depth > 0 and input_mass_g >= initial_mass_g);
alter table lot_floral_share add constraint lot_floral_share_possible check (centi_percent between 1 and 10000);
alter table lot_origin_share add constraint lot_origin_share_possible check (centi_percent between 1 and 10000);
alter table lot_movement add constraint lot_movement_has_mass check (mass_g > 0);
alter table lot_movement add constraint lot_movement_into_a_lot check (into_lot_id is null or kind in ('used', 'lent'));
alter table lot_input add constraint lot_input_has_mass check (mass_g > 0);
alter table lot_input add constraint lot_input_kind check (kind in ('used', 'lent'));
-- No circle: every input lies less deep than what it went into, so no lot is its own ancestor.
alter table lot_input add constraint lot_input_never_circles check (child_depth > parent_depth);
alter table loan add constraint loan_has_mass check (mass_g > 0);
alter table loan add constraint loan_between_two check (lender_id <> borrower_id);

-- A lot starts whole, and afterwards only its movements change its masses.
create function start_lot_whole() returns trigger language plpgsql as $$
begin
  if new.remaining_mass_g <> new.initial_mass_g then
    raise check_violation using constraint = 'lot_starts_whole',
      message = 'new row for relation "lot" violates check constraint "lot_starts_whole"';
  end if;
  return new;
end $$;
create trigger lot_starts_whole before insert on lot for each row execute function start_lot_whole();

create function keep_lot_masses() returns trigger language plpgsql as $$
begin
  if pg_trigger_depth() < 2 or (new.initial_mass_g, new.input_mass_g, new.depth) <> (old.initial_mass_g, old.input_mass_g, old.depth) then
    raise check_violation using constraint = 'lot_masses_by_movement_only',
      message = 'new row for relation "lot" violates check constraint "lot_masses_by_movement_only"';
  end if;
  return new;
end $$;
create trigger lot_masses_by_movement_only before update on lot for each row
  when ((new.initial_mass_g, new.remaining_mass_g, new.used_mass_g, new.lent_mass_g, new.potted_mass_g, new.lost_mass_g, new.input_mass_g, new.depth)
    is distinct from
    (old.initial_mass_g, old.remaining_mass_g, old.used_mass_g, old.lent_mass_g, old.potted_mass_g, old.lost_mass_g, old.input_mass_g, old.depth))
  execute function keep_lot_masses();

create function draw_lot_down() returns trigger language plpgsql as $$
begin
  update lot set
    remaining_mass_g = remaining_mass_g - new.mass_g,
    used_mass_g = used_mass_g + case new.kind when 'used' then new.mass_g else 0 end,
    lent_mass_g = lent_mass_g + case new.kind when 'lent' then new.mass_g else 0 end,
    potted_mass_g = potted_mass_g + case new.kind when 'potted' then new.mass_g else 0 end,
    lost_mass_g = lost_mass_g + case new.kind when 'lost' then new.mass_g else 0 end
  where club_id = new.club_id and id = new.lot_id;
  return null;
end $$;
create trigger lot_movement_draws_down after insert on lot_movement
  for each row execute function draw_lot_down();

-- What goes into a lot leaves its parent: the movement is filed with the input, never apart from it.
create function move_input() returns trigger language plpgsql as $$
begin
  insert into lot_movement (club_id, lot_id, kind, mass_g, into_lot_id, at, recorded_by_id)
  values (new.club_id, new.parent_id, new.kind, new.mass_g, new.child_id, new.at, new.recorded_by_id);
  return null;
end $$;
create trigger lot_input_moves_mass after insert on lot_input for each row execute function move_input();

create function refuse_lone_movement_into_lot() returns trigger language plpgsql as $$
begin
  if pg_trigger_depth() < 2 then
    raise check_violation using constraint = 'lot_movement_into_lot_by_input_only',
      message = 'new row for relation "lot_movement" violates check constraint "lot_movement_into_lot_by_input_only"';
  end if;
  return new;
end $$;
create trigger lot_movement_into_lot_by_input_only before insert on lot_movement
  for each row when (new.into_lot_id is not null) execute function refuse_lone_movement_into_lot();

-- Nothing leaves a lot before the lot was made.
create function keep_movement_after_making() returns trigger language plpgsql as $$
begin
  if exists (select from lot_input where club_id = new.club_id and child_id = new.lot_id and at > new.at) then
    raise check_violation using constraint = 'lot_movement_after_lot_was_made',
      message = 'new row for relation "lot_movement" violates check constraint "lot_movement_after_lot_was_made"';
  end if;
  return new;
end $$;
create trigger lot_movement_after_lot_was_made before insert on lot_movement
  for each row execute function keep_movement_after_making();

-- At the end of a transaction the inputs of a lot add up to what was declared when it was made, and its depth is theirs plus one: so
-- nothing can be added to it later.
create function check_lot_inputs(club uuid, lot_id uuid) returns void language plpgsql as $$
declare
  made lot%rowtype;
  inputs record;
begin
  select * into made from lot where club_id = club and id = lot_id;
  select coalesce(sum(mass_g), 0) as mass_g, coalesce(max(parent_depth) + 1, 0) as depth into inputs
    from lot_input where club_id = club and child_id = lot_id;
  if made.input_mass_g <> inputs.mass_g or made.depth <> inputs.depth then
    raise check_violation using constraint = 'lot_inputs_add_up',
      message = 'new row for relation "lot_input" violates check constraint "lot_inputs_add_up"';
  end if;
end $$;
create function check_inputs_of_new_lot() returns trigger language plpgsql as $$
begin
  perform check_lot_inputs(new.club_id, new.id);
  return null;
end $$;
create function check_inputs_of_child() returns trigger language plpgsql as $$
begin
  perform check_lot_inputs(new.club_id, new.child_id);
  return null;
end $$;
create constraint trigger lot_inputs_add_up_for_lot after insert on lot
  deferrable initially deferred for each row execute function check_inputs_of_new_lot();
create constraint trigger lot_inputs_add_up_for_input after insert on lot_input
  deferrable initially deferred for each row execute function check_inputs_of_child();

-- Batches ------------------------------------------------------------------------------------------------------------------------

alter table batch_honey add constraint batch_honey_has_mass check (mass_g > 0);
alter table batch_pots add constraint batch_pots_counted check (count > 0 and net_mass_g > 0);
-- One batch makes one creamed lot.
create unique index lot_creamed_once on lot (club_id, batch_id) where kind = 'creamed' and batch_id is not null;

-- History ------------------------------------------------------------------------------------------------------------------------

create function refuse_change() returns trigger language plpgsql as $$
begin
  raise insufficient_privilege using constraint = tg_table_name || '_is_history',
    message = format('rows of "%s" are only ever added', tg_table_name);
end $$;
create trigger audit_entry_is_history before update or delete or truncate on audit_entry
  for each statement execute function refuse_change();
create trigger lot_movement_is_history before update or delete or truncate on lot_movement
  for each statement execute function refuse_change();
create trigger lot_input_is_history before update or delete or truncate on lot_input
  for each statement execute function refuse_change();
