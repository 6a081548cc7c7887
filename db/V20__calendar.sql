-- Links by which a calendar program reads the sessions of a room or of an operator; and an order within a session that changes.

-- What a session is called in every calendar, for good (RFC 5545, section 3.8.4.7).
alter table practice_session add column uid uuid not null default gen_random_uuid() unique;

create trigger practice_session_uid_stays before update of uid on practice_session
    for each row execute function refuse_to_rewrite();

create index appointment_step_session on appointment_step (session);

create table calendar_link (
    id bigint generated always as identity primary key,
    kind text not null check (kind in ('PLACE', 'OPERATOR')),
    name text not null check (name ~ '\S' and length(name) <= 80),
    -- SHA-256 of the secret in the address; the secret itself is kept nowhere.
    secret bytea not null unique check (length(secret) = 32),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    -- Null until it is revoked, which is for good.
    revoked_account bigint references account,
    revoked_author text check (revoked_author ~ '\S'),
    revoked_at timestamptz,
    -- When a calendar program last read it, to the minute.
    fetched_at timestamptz,
    constraint calendar_link_revoked_together check (num_nulls(revoked_account, revoked_author, revoked_at) in (0, 3))
);

create function guard_calendar_link() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'calendar link % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if (new.id, new.kind, new.name, new.secret, new.account, new.author, new.at)
           is distinct from
           (old.id, old.kind, old.name, old.secret, old.account, old.author, old.at)
            or old.revoked_at is not null then
        raise exception 'calendar link % is read or revoked, and otherwise stays', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger calendar_link_guarded before update or delete on calendar_link
    for each row execute function guard_calendar_link();

-- Two cases change places in one statement: what counts is that no two have the same place at its end.
alter table appointment drop constraint appointment_session_position_key;
alter table appointment add constraint appointment_one_a_position unique (session, position) deferrable;
