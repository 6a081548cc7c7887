-- Time that is kept for urgent cases: of each session, and how much of a week was chosen.

alter table practice_session
    -- At the end of the session, for cases of the same day and of 5 days.
    add column held_minutes integer not null default 0,
    -- At the end of the day so many days before the session, others may use what is left of it.
    add column release_days integer not null default 2 check (release_days between 0 and 28),
    add constraint practice_session_holds_what_it_has check (held_minutes between 0 and minutes);

alter table practice_session_step
    add column held_minutes integer not null default 0,
    add column release_days integer not null default 2;

create or replace function keep_practice_session_step() returns trigger language plpgsql as $$
begin
    insert into practice_session_step (session, version, closed_because, held_minutes, release_days, author, at)
    values (new.id, new.version, new.closed_because, new.held_minutes, new.release_days, new.author, new.at);
    -- Told to open pages, and not counted: no list is worked out from sessions alone.
    perform pg_notify('limbqueue_changed', '0');
    return null;
end
$$;

-- What was chosen to be held in the procedure room in each week. The newest holds, for sessions that are entered from then on too.
create table held_time_choice (
    id bigint generated always as identity primary key,
    -- Minutes of each day of the week, Monday first.
    by_day integer[] not null
        check (array_ndims(by_day) = 1 and array_length(by_day, 1) = 7 and array_position(by_day, null) is null
               and 0 <= all (by_day) and 1440 >= all (by_day)),
    release_days integer not null check (release_days between 0 and 28),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null
);

create trigger held_time_choice_append_only before update or delete on held_time_choice
    for each row execute function refuse_to_rewrite();
create trigger held_time_choice_never_emptied before truncate on held_time_choice
    for each statement execute function refuse_to_rewrite();
