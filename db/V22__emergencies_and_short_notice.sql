-- Minutes of a session that emergencies take, and who can come at short notice.

alter table practice_session
    add column emergency_minutes integer not null default 0 check (emergency_minutes between 0 and 1440);

-- What emergencies took of a session each time that it changed.
create table practice_session_emergency (
    id bigint generated always as identity primary key,
    session bigint not null references practice_session,
    version integer not null check (version > 0),
    minutes integer not null,
    author text not null,
    at timestamptz not null,
    unique (session, version)
);

create function keep_practice_session_emergency() returns trigger language plpgsql as $$
begin
    insert into practice_session_emergency (session, version, minutes, author, at)
    values (new.id, new.version, new.emergency_minutes, new.author, new.at);
    return null;
end
$$;

create trigger practice_session_emergency_kept after update on practice_session
    for each row when (new.emergency_minutes <> old.emergency_minutes)
    execute function keep_practice_session_emergency();
create trigger practice_session_emergency_append_only before update or delete on practice_session_emergency
    for each row execute function refuse_to_rewrite();
create trigger practice_session_emergency_never_emptied before truncate on practice_session_emergency
    for each statement execute function refuse_to_rewrite();

-- What patients say when they are asked whether they can come at short notice; the last answer counts.
create table short_notice (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    can_come boolean not null,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null
);

create index short_notice_of_referral on short_notice (referral, id);

create trigger short_notice_append_only before update or delete on short_notice
    for each row execute function refuse_to_rewrite();
create trigger short_notice_never_emptied before truncate on short_notice
    for each statement execute function refuse_to_rewrite();
create constraint trigger short_notice_told after insert on short_notice
    deferrable initially deferred for each row execute function tell_change('referral');

-- CTA takes place in a session of CT; the step and the kind of session have different names.
create or replace function guard_appointment() returns trigger language plpgsql as $$
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
                when 'CTA' then 'CT'
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
