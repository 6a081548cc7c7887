-- Sessions, and who is in them.

-- A text as a range of nothing but itself: what overlaps is equal, which an exclusion can ask without an extension.
create type text_range as range (subtype = text, collation = "C");

create table practice_session (
    id bigint generated always as identity primary key,
    version integer not null default 1 check (version > 0),
    kind text not null check (kind in ('CLINIC', 'VASCULAR_LABORATORY', 'CT', 'PROCEDURE_ROOM')),
    -- Times on the clock of the practice.
    starts timestamp not null,
    ends timestamp not null,
    -- That pass between them; not what the clock says when clocks are changed.
    minutes integer not null check (minutes between 1 and 1440),
    place text not null check (place ~ '\S' and length(place) <= 80),
    operator text not null check (operator ~ '\S' and length(operator) <= 80),
    capabilities text[] not null
        check (capabilities <@ array['ARM_ACCESS', 'HYBRID', 'ANAESTHETIST', 'COVERED_STENT_STOCK', 'TRANSLATOR']),
    -- Why nobody can be treated in it after all; null while it is open.
    closed_because text check (closed_because ~ '\S' and length(closed_because) <= 200),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    constraint practice_session_within_a_day check (starts < ends and starts::date = ends::date),
    -- A closed session uses neither room nor operator.
    constraint practice_session_one_a_place exclude using gist (
        text_range(lower(place), lower(place), '[]') with &&, tsrange(starts, ends) with &&)
        where (closed_because is null),
    constraint practice_session_one_an_operator exclude using gist (
        text_range(lower(operator), lower(operator), '[]') with &&, tsrange(starts, ends) with &&)
        where (closed_because is null)
);

create index practice_session_in_time on practice_session (starts);

create function guard_practice_session() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'session % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version + 1
            or (new.id, new.kind, new.starts, new.ends, new.minutes, new.place, new.operator, new.capabilities)
               is distinct from
               (old.id, old.kind, old.starts, old.ends, old.minutes, old.place, old.operator, old.capabilities) then
        raise exception 'session % is closed or opened, one version at a time, and otherwise stays', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger practice_session_guarded before update or delete on practice_session
    for each row execute function guard_practice_session();

-- Every state that a session was ever in.
create table practice_session_step (
    id bigint generated always as identity primary key,
    session bigint not null references practice_session,
    version integer not null check (version > 0),
    closed_because text,
    author text not null,
    at timestamptz not null,
    unique (session, version)
);

create function keep_practice_session_step() returns trigger language plpgsql as $$
begin
    insert into practice_session_step (session, version, closed_because, author, at)
    values (new.id, new.version, new.closed_because, new.author, new.at);
    -- Told to open pages, and not counted: no list is worked out from sessions alone.
    perform pg_notify('limbqueue_changed', '0');
    return null;
end
$$;

create trigger practice_session_kept after insert or update on practice_session
    for each row execute function keep_practice_session_step();
create trigger practice_session_step_append_only before update or delete on practice_session_step
    for each row execute function refuse_to_rewrite();
create trigger practice_session_step_never_emptied before truncate on practice_session_step
    for each statement execute function refuse_to_rewrite();

-- One row for each step of a referral that ever had a place.
create table appointment (
    id bigint generated always as identity primary key,
    version integer not null default 1 check (version > 0),
    referral bigint not null references referral,
    step text not null check (step in ('PRESSURES_AND_DUPLEX', 'CTA', 'CLINIC', 'PROCEDURE')),
    -- Null since it was taken out again.
    session bigint references practice_session,
    -- The order in the session; places left empty do not matter.
    position integer check (position > 0),
    -- The time of the session, which the trigger fills in.
    during tsrange,
    -- Minutes that half of such cases do not exceed, and nine of ten.
    median double precision not null check (median > 0),
    ninety double precision not null,
    -- Whether the patient has been told of it.
    told boolean not null,
    placed text not null check (placed in ('BY_HAND', 'PLANNED')),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (referral, step),
    unique (session, position),
    constraint appointment_minutes check (ninety >= median),
    constraint appointment_place_together check (num_nulls(session, position, during) in (0, 3)),
    constraint appointment_told_of_a_place check (session is not null or not told),
    constraint appointment_one_at_a_time exclude using gist (
        int8range(referral, referral, '[]') with &&, during with &&)
);

create function guard_appointment() returns trigger language plpgsql as $$
declare
    given practice_session;
begin
    if tg_op = 'DELETE' then
        raise exception 'appointment % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if tg_op = 'UPDATE' then
        if new.version <> old.version + 1
                or (new.id, new.referral, new.step) is distinct from (old.id, old.referral, old.step) then
            raise exception 'appointment % moves one version at a time', old.id
                using errcode = 'integrity_constraint_violation';
        end if;
    end if;
    new.during := null;
    if new.session is not null then
        select * into strict given from practice_session where id = new.session;
        if given.kind <> (case new.step
                when 'PRESSURES_AND_DUPLEX' then 'VASCULAR_LABORATORY'
                when 'PROCEDURE' then 'PROCEDURE_ROOM'
                else new.step
            end) then
            raise exception 'session % is none for %', new.session, new.step
                using errcode = 'integrity_constraint_violation';
        end if;
        if given.closed_because is not null and (tg_op = 'INSERT' or new.session is distinct from old.session) then
            raise exception 'session % is closed', new.session using errcode = 'integrity_constraint_violation';
        end if;
        new.during := tsrange(given.starts, given.ends);
    end if;
    return new;
end
$$;

create trigger appointment_guarded before insert or update or delete on appointment
    for each row execute function guard_appointment();

-- Every place that a step ever had.
create table appointment_step (
    id bigint generated always as identity primary key,
    appointment bigint not null references appointment,
    version integer not null check (version > 0),
    session bigint references practice_session,
    position integer,
    told boolean not null,
    placed text not null,
    author text not null,
    at timestamptz not null,
    unique (appointment, version)
);

create function keep_appointment_step() returns trigger language plpgsql as $$
begin
    insert into appointment_step (appointment, version, session, position, told, placed, author, at)
    values (new.id, new.version, new.session, new.position, new.told, new.placed, new.author, new.at);
    return null;
end
$$;

create trigger appointment_kept after insert or update on appointment
    for each row execute function keep_appointment_step();
create trigger appointment_step_append_only before update or delete on appointment_step
    for each row execute function refuse_to_rewrite();
create trigger appointment_step_never_emptied before truncate on appointment_step
    for each statement execute function refuse_to_rewrite();
create constraint trigger appointment_told after insert or update on appointment
    deferrable initially deferred for each row execute function tell_change('referral');
