-- A letter that has not left is corrected by hand. Both texts of each correction are kept.

alter table letter add column version integer not null default 1 check (version > 0);

create table letter_correction (
    id bigint generated always as identity primary key,
    letter bigint not null references letter,
    -- The version that the letter became.
    version integer not null check (version > 1),
    before_parts json not null check (json_typeof(before_parts) = 'object'),
    before_text text not null,
    parts json not null check (json_typeof(parts) = 'object'),
    text text not null check (text ~ '\S'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (letter, version),
    constraint letter_correction_changes_something check (text <> before_text)
);

create trigger letter_correction_append_only before update or delete on letter_correction
    for each row execute function refuse_to_rewrite();
create trigger letter_correction_never_emptied before truncate on letter_correction
    for each statement execute function refuse_to_rewrite();

create or replace function guard_letter() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'letter % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if (new.id, new.referral, new.decision, new.kind, new.reference, new.patient, new.recipient, new.channel, new.dated,
            new.written_at)
        is distinct from
       (old.id, old.referral, old.decision, old.kind, old.reference, old.patient, old.recipient, old.channel, old.dated,
            old.written_at) then
        raise exception 'letter % stays as it was written', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version then
        if new.version <> old.version + 1 or new.pdf is not null
                or num_nonnulls(old.sent_at, old.withdrawn_at, new.sent_at, new.withdrawn_at) > 0
                or not exists (
                    select from letter_correction
                    where letter = new.id and version = new.version and before_text = old.text and text = new.text
                        and before_parts::text = old.parts::text and parts::text = new.parts::text) then
            raise exception 'letter % is corrected before it leaves, and both texts are kept', old.id
                using errcode = 'integrity_constraint_violation';
        end if;
        -- Under the lock of its records none of them can begin to be sent; a printed batch names what was on its way.
        perform 1 from outbox where letter = new.id order by id for update;
        if exists (select from outbox where letter = new.id and state in ('TO_SEND', 'SENDING')) then
            raise exception 'letter % is held while it is corrected', old.id
                using errcode = 'integrity_constraint_violation';
        end if;
        return new;
    end if;
    if (new.parts::text, new.text) is distinct from (old.parts::text, old.text) then
        raise exception 'letter % stays as it was written', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if old.pdf is not null and new.pdf is distinct from old.pdf then
        raise exception 'letter % stays as it was printed', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if old.sent_at is not null and (new.sent_at, new.sent_by) is distinct from (old.sent_at, old.sent_by) then
        raise exception 'letter % was sent, and is marked so once', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger letter_corrected_searchable after update on letter
    for each row when (new.text is distinct from old.text) execute function keep_letter_searchable();
