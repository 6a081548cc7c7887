-- People who sign in, and what they did.

create table account (
    id bigint generated always as identity primary key,
    sign_in_name text not null check (sign_in_name ~ '^[A-Za-z0-9][A-Za-z0-9._-]{1,39}$'),
    display_name text not null check (length(btrim(display_name)) between 1 and 80),
    role text not null check (role in ('COORDINATOR', 'PHYSICIAN', 'MANAGER')),
    -- The prefix names the algorithm, so that it can change without a flag day.
    password_hash text not null check (password_hash ~ '^[{][a-zA-Z0-9@_-]+[}].+'),
    must_change_password boolean not null,
    active boolean not null default true,
    version integer not null default 0 check (version >= 0)
);

create unique index account_sign_in_name on account (lower(sign_in_name));

create table audit_entry (
    id bigint generated always as identity primary key,
    at timestamptz not null default clock_timestamp(),
    -- Null where the application itself acted, as when it makes the first account.
    account_id bigint references account (id),
    who text not null check (length(btrim(who)) > 0),
    action text not null check (length(btrim(action)) > 0),
    subject text not null
);

create index audit_entry_subject on audit_entry (subject, id);

create function refuse_to_rewrite() returns trigger language plpgsql as $$
begin
    raise exception 'rows of % are only ever added', tg_table_name using errcode = 'restrict_violation';
end
$$;

create trigger audit_entry_is_append_only
    before update or delete on audit_entry
    for each row execute function refuse_to_rewrite();

create trigger audit_entry_is_never_emptied
    before truncate on audit_entry
    for each statement execute function refuse_to_rewrite();
