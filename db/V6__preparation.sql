-- What must be ready before a case: results that arrive after the decision, the work-up followed to its end, the stock of
-- covered stents, what is confirmed in the room, overrides, and what became of the case.

-- Results typed in after the form was put before the physician.
alter table referral_revision add column results boolean not null default false;

-- A decision that no longer holds: a result changed what it was made on.
create table reopening (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The version that the referral became.
    version integer not null check (version > 0),
    decision bigint not null,
    -- What changed, one sentence each.
    changes text[] not null check (cardinality(changes) > 0),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (referral, version),
    unique (decision),
    foreign key (referral, decision) references decision (referral, id)
);

create trigger reopening_append_only before update or delete on reopening
    for each row execute function refuse_to_rewrite();
create trigger reopening_never_emptied before truncate on reopening
    for each statement execute function refuse_to_rewrite();

create or replace function guard_referral() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'referral % is kept', old.reference using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version + 1 or new.reference <> old.reference then
        raise exception 'referral % moves one version at a time and keeps its reference', old.reference
            using errcode = 'integrity_constraint_violation';
    end if;
    if not (old.state, new.state) in (
            ('DRAFT', 'DRAFT'), ('DRAFT', 'QUEUED'),
            ('QUEUED', 'QUEUED'), ('QUEUED', 'INFORMATION_NEEDED'), ('QUEUED', 'APPROVED'), ('QUEUED', 'RETURNED'),
            ('QUEUED', 'SENT_TO_HOSPITAL'),
            ('INFORMATION_NEEDED', 'INFORMATION_NEEDED'), ('INFORMATION_NEEDED', 'QUEUED'),
            -- A result came: the decision stands, or the referral is before the physician again.
            ('APPROVED', 'APPROVED'), ('APPROVED', 'QUEUED')) then
        raise exception 'referral % cannot go from % to %', old.reference, old.state, new.state
            using errcode = 'integrity_constraint_violation';
    end if;
    if old.state = 'APPROVED' and new.state = 'APPROVED' and new.decision is distinct from old.decision then
        raise exception 'referral % keeps its decision', old.reference using errcode = 'integrity_constraint_violation';
    end if;
    if old.state = 'APPROVED' and new.state = 'QUEUED' and not exists (
            select from reopening where referral = new.id and version = new.version and decision = old.decision) then
        raise exception 'referral % is not put back without saying what changed', old.reference
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

-- One row for each item of the work-up that somebody has touched. An item without a row is wanted and nothing more.
create table tracked_item (
    referral bigint not null references referral,
    code text not null check (code ~ '^[a-z0-9-]+$'),
    version integer not null default 1 check (version > 0),
    -- What the item was called when it was last touched, for when no proposal asks for it any more.
    what text not null check (what ~ '\S'),
    state text not null check (state in ('WANTED', 'ASKED', 'BOOKED', 'IN', 'NOT_NEEDED')),
    asked_of text check (asked_of ~ '\S'),
    asked_on date,
    chase_on date,
    booked_for date,
    booked_where text check (booked_where ~ '\S'),
    came_on date,
    reason text check (reason ~ '\S'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    primary key (referral, code),
    constraint tracked_item_asked
        check ((state = 'ASKED') = (asked_of is not null) and (state = 'ASKED') = (asked_on is not null)
               and (state = 'ASKED') = (chase_on is not null)),
    constraint tracked_item_chased_later check (chase_on >= asked_on),
    constraint tracked_item_booked
        check ((state = 'BOOKED') = (booked_for is not null) and (state = 'BOOKED') = (booked_where is not null)),
    constraint tracked_item_in check ((state = 'IN') = (came_on is not null)),
    constraint tracked_item_not_needed check ((state = 'NOT_NEEDED') = (reason is not null))
);

-- Every state an item was ever in.
create table tracked_item_step (
    id bigint generated always as identity primary key,
    referral bigint not null,
    code text not null,
    version integer not null check (version > 0),
    state text not null,
    -- The state in words, as the screen says it.
    details text not null,
    author text not null,
    at timestamptz not null,
    unique (referral, code, version),
    foreign key (referral, code) references tracked_item (referral, code)
);

create function guard_tracked_item() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'item % of referral % is kept', old.code, old.referral
            using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version + 1 or (new.referral, new.code) is distinct from (old.referral, old.code) then
        raise exception 'item % of referral % moves one version at a time', old.code, old.referral
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger tracked_item_guarded before update or delete on tracked_item
    for each row execute function guard_tracked_item();

create function keep_tracked_item_step() returns trigger language plpgsql as $$
begin
    insert into tracked_item_step (referral, code, version, state, details, author, at)
    values (new.referral, new.code, new.version, new.state,
            concat_ws(', ', new.asked_of, to_char(new.asked_on, 'YYYY-MM-DD'),
                      'chase on ' || to_char(new.chase_on, 'YYYY-MM-DD'), to_char(new.booked_for, 'YYYY-MM-DD'),
                      new.booked_where, to_char(new.came_on, 'YYYY-MM-DD'), new.reason),
            new.author, new.at);
    return null;
end
$$;

create trigger tracked_item_kept after insert or update on tracked_item
    for each row execute function keep_tracked_item_step();
create trigger tracked_item_step_append_only before update or delete on tracked_item_step
    for each row execute function refuse_to_rewrite();
create trigger tracked_item_step_never_emptied before truncate on tracked_item_step
    for each statement execute function refuse_to_rewrite();

-- When and where the procedure is, and whether the patient is in the room.
create table procedure_booking (
    referral bigint primary key references referral,
    version integer not null default 1 check (version > 0),
    -- The time on the clock of the practice.
    starts timestamp not null,
    room text not null check (room ~ '\S'),
    ready_at timestamptz,
    ready_by text check (ready_by ~ '\S'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    constraint procedure_booking_ready_by_somebody check ((ready_at is null) = (ready_by is null))
);

create function guard_procedure_booking() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'the booking of referral % is kept', old.referral using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version + 1 or new.referral <> old.referral then
        raise exception 'the booking of referral % moves one version at a time', old.referral
            using errcode = 'integrity_constraint_violation';
    end if;
    -- It may be taken back from the room, and that alone.
    if old.ready_at is not null
            and ((new.starts, new.room) is distinct from (old.starts, old.room)
                 or new.ready_at is not null and (new.ready_at, new.ready_by) is distinct from (old.ready_at, old.ready_by))
            then
        raise exception 'the case of referral % has gone to the room', old.referral
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger procedure_booking_guarded before update or delete on procedure_booking
    for each row execute function guard_procedure_booking();

-- Covered stents on the shelf. A row is one size of one lot in one place.
create table covered_stent (
    id bigint generated always as identity primary key,
    version integer not null default 1 check (version > 0),
    diameter_mm numeric(4, 1) not null check (diameter_mm between 3 and 40),
    length_mm numeric(5, 1) not null check (length_mm between 10 and 300),
    sheath_french integer not null check (sheath_french between 4 and 24),
    expires date not null,
    lot text not null check (lot ~ '\S'),
    place text not null check (place ~ '\S'),
    count integer not null check (count between 0 and 1000),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (lot, diameter_mm, length_mm, place)
);

create function guard_covered_stent() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'covered stent % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version + 1
            or (new.id, new.diameter_mm, new.length_mm, new.sheath_french, new.expires, new.lot, new.place)
               is distinct from
               (old.id, old.diameter_mm, old.length_mm, old.sheath_french, old.expires, old.lot, old.place) then
        raise exception 'of covered stent % only the count changes, one version at a time', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger covered_stent_guarded before update or delete on covered_stent
    for each row execute function guard_covered_stent();

-- Somebody has seen this stent in the room, for this vessel.
create table stent_confirmation (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The vessel, as LEFT and COMMON_ILIAC; the aorta has no side.
    side text check (side in ('LEFT', 'RIGHT')),
    segment text not null check (segment ~ '^[A-Z_]+$'),
    covered_stent bigint not null references covered_stent,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    withdrawn_by text check (withdrawn_by ~ '\S'),
    withdrawn_at timestamptz,
    constraint stent_confirmation_side check ((side is null) = (segment = 'INFRARENAL_AORTA')),
    constraint stent_confirmation_withdrawn check ((withdrawn_by is null) = (withdrawn_at is null))
);

create unique index stent_confirmation_one_a_vessel on stent_confirmation (referral, segment, coalesce(side, ''))
    where withdrawn_at is null;
create index stent_confirmation_of on stent_confirmation (covered_stent) where withdrawn_at is null;

create function guard_stent_confirmation() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'confirmation % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if old.withdrawn_at is not null
            or (new.id, new.referral, new.side, new.segment, new.covered_stent, new.author, new.at)
               is distinct from
               (old.id, old.referral, old.side, old.segment, old.covered_stent, old.author, old.at) then
        raise exception 'confirmation % is only withdrawn, and once', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger stent_confirmation_guarded before update or delete on stent_confirmation
    for each row execute function guard_stent_confirmation();

-- A physician goes ahead although the gate says not ready. It holds for exactly the facts it was given for.
create table readiness_override (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    facts text not null check (facts ~ '\S'),
    reason text not null check (reason ~ '\S'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null
);

create index readiness_override_of on readiness_override (referral, id);

create trigger readiness_override_append_only before update or delete on readiness_override
    for each row execute function refuse_to_rewrite();
create trigger readiness_override_never_emptied before truncate on readiness_override
    for each statement execute function refuse_to_rewrite();

-- What became of a case. Also what the times of the next ones are learned from.
create table recorded_case (
    referral bigint primary key references referral,
    minutes integer not null check (minutes between 1 and 1440),
    access text not null check (access ~ '\S'),
    outcome text not null check (outcome in ('AS_PLANNED', 'OTHER_ACCESS', 'FAILED', 'COMPLICATION')),
    note text not null,
    -- What the time was expected to depend on; none of it while no lesion was known.
    narrowed integer check (narrowed >= 0),
    closed integer check (closed >= 0),
    closed_above_groin boolean,
    length_mm numeric(7, 1) check (length_mm >= 0),
    heavily_calcified integer check (heavily_calcified >= 0),
    earlier_failure boolean,
    from_arm boolean,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    constraint recorded_case_features_together
        check (num_nulls(narrowed, closed, closed_above_groin, length_mm, heavily_calcified, earlier_failure, from_arm)
               in (0, 7)),
    constraint recorded_case_says_what_went_wrong
        check (outcome not in ('FAILED', 'COMPLICATION') or note ~ '\S')
);

create trigger recorded_case_append_only before update or delete on recorded_case
    for each row execute function refuse_to_rewrite();
create trigger recorded_case_never_emptied before truncate on recorded_case
    for each statement execute function refuse_to_rewrite();
