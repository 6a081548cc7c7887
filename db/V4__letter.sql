-- Letters to referring doctors, as they were written. Only their dispatch is added afterwards.
create table letter (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The decision it tells of; none for the letter that says the referral has arrived.
    decision bigint,
    kind text not null check (kind in ('RECEIVED', 'INFORMATION_NEEDED', 'TRIAGED', 'RETURNED')),
    reference text not null check (reference ~ '\S'),
    patient text not null,
    recipient text not null check (recipient ~ '\S'),
    channel text not null,
    dated date not null,
    written_at timestamptz not null,
    -- The words and the letterhead part by part, from which the printed page is set.
    parts json not null check (json_typeof(parts) = 'object'),
    text text not null check (text ~ '\S'),
    -- The printed page, set once when it is first wanted.
    pdf bytea check (length(pdf) > 0),
    sent_at timestamptz,
    sent_by text check (sent_by ~ '\S'),
    foreign key (referral, decision) references decision (referral, id),
    unique (decision),
    constraint letter_tells_of_decision check ((kind = 'RECEIVED') = (decision is null)),
    constraint letter_sent_by_somebody check ((sent_at is null) = (sent_by is null)),
    constraint letter_sent_as_printed check (sent_at is null or pdf is not null)
);

create unique index letter_received_once on letter (referral) where kind = 'RECEIVED';
create index letter_about on letter (referral);
create index letter_unsent on letter (written_at) where sent_at is null;

create function guard_letter() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'letter % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if (new.id, new.referral, new.decision, new.kind, new.reference, new.patient, new.recipient, new.channel, new.dated,
            new.written_at, new.parts::text, new.text)
        is distinct from
       (old.id, old.referral, old.decision, old.kind, old.reference, old.patient, old.recipient, old.channel, old.dated,
            old.written_at, old.parts::text, old.text) then
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

create trigger letter_guarded before update or delete on letter
    for each row execute function guard_letter();
create trigger letter_never_emptied before truncate on letter
    for each statement execute function refuse_to_rewrite();
