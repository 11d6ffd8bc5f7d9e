-- What was handed over is corrected as what went into a batch is: another lot of the lender's was, or less of it. The loan follows.

-- A correction of a loan takes from what began a lot as much as from what is left of it and from what went in: nothing else changes that.
create or replace function keep_lot_masses() returns trigger language plpgsql as $$
begin
  if pg_trigger_depth() < 2 or new.initial_mass_g <> old.initial_mass_g
      and (new.initial_mass_g - old.initial_mass_g <> new.remaining_mass_g - old.remaining_mass_g
        or new.initial_mass_g - old.initial_mass_g <> new.input_mass_g - old.input_mass_g
        or new.initial_mass_g > old.initial_mass_g) then
    raise check_violation using constraint = 'lot_masses_by_movement_only',
      message = 'new row for relation "lot" violates check constraint "lot_masses_by_movement_only"';
  end if;
  return new;
end $$;

-- Once handed over the loan stands, but for corrections of what was; what is given back changes by returns alone; once over it is over.
create or replace function keep_loan() returns trigger language plpgsql as $$
declare
  broken text;
begin
  if old.ended_at is not null and
    (new.state, new.returned_mass_g, new.forgiven_mass_g, new.ended_at) is distinct from
    (old.state, old.returned_mass_g, old.forgiven_mass_g, old.ended_at) then
    broken := 'loan_once_over_is_over';
  elsif old.to_lot_id is not null and
    ((new.lender_id, new.borrower_id, new.to_lot_id, new.lent_at) is distinct from
      (old.lender_id, old.borrower_id, old.to_lot_id, old.lent_at)
    or pg_trigger_depth() < 2 and (new.from_lot_id, new.mass_g) is distinct from (old.from_lot_id, old.mass_g)) then
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
drop trigger loan_lot_goes_to_borrower on loan;
create trigger loan_lot_goes_to_borrower after insert or update of to_lot_id, from_lot_id, mass_g on loan
  for each row when (new.to_lot_id is not null) execute function check_lent_lot();

-- The loan follows a correction of what was handed over. Less than was given back cannot have been lent; as much settles it.
create function correct_loan(correction lot_correction) returns void language plpgsql as $$
begin
  if correction.right_parent_id is not null then
    update loan set from_lot_id = correction.right_parent_id
    where club_id = correction.club_id and to_lot_id = correction.child_id;
    return;
  end if;
  update loan set
    mass_g = mass_g - correction.mass_g,
    state = case when returned_mass_g = mass_g - correction.mass_g then 'returned' else state end,
    ended_at = case when returned_mass_g = mass_g - correction.mass_g then correction.recorded_at else ended_at end,
    ended_by_id = case when returned_mass_g = mass_g - correction.mass_g then correction.recorded_by_id else ended_by_id end
  where club_id = correction.club_id and to_lot_id = correction.child_id;
end $$;

create or replace function correct_lot_input() returns trigger language plpgsql as $$
declare
  lent loan%rowtype;
  input lot_input%rowtype;
  child lot%rowtype;
  right_depth int;
begin
  -- A loan is locked before its lots.
  select * into lent from loan where club_id = new.club_id and to_lot_id = new.child_id for no key update;
  perform take_lots_lock(new.club_id);
  select * into child from lot where club_id = new.club_id and id = new.child_id for no key update;
  select * into input from lot_input
    where club_id = new.club_id and child_id = new.child_id and parent_id = new.wrong_parent_id and (kind = 'used' or lent.id is not null);
  if not found or input.mass_g < new.mass_g then
    perform refuse_correction('lot_correction_of_an_input');
  end if;
  -- What was handed over came from one lot, and something was handed over.
  if input.kind = 'lent' and (new.right_parent_id is null) = (new.mass_g = input.mass_g) then
    perform refuse_correction('lot_correction_of_what_was_lent');
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
    update lot set
      input_mass_g = input_mass_g - new.mass_g,
      depth = case when input_mass_g = new.mass_g then 0 else depth end,
      -- The borrower got so much less; in a batch less was stirred in, and what it made weighs what it weighs.
      initial_mass_g = initial_mass_g - case input.kind when 'lent' then new.mass_g else 0 end,
      remaining_mass_g = remaining_mass_g - case input.kind when 'lent' then new.mass_g else 0 end
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
  if input.kind = 'lent' then
    perform correct_loan(new);
  end if;
  return null;
end $$;
