-- Letters for every step, to patients too; their words as the practice has edited them; who is written to in what language.

alter table letter
    drop constraint letter_kind_check,
    drop constraint letter_tells_of_decision,
    -- The step whose date the letter tells of, and that date on the clock of the practice.
    add column visit text check (visit in ('PRESSURES_AND_DUPLEX', 'CTA', 'CLINIC', 'PROCEDURE')),
    add column visit_at timestamp;

alter table letter
    add constraint letter_kind_check check (kind in (
        'RECEIVED', 'INFORMATION_NEEDED', 'TRIAGED', 'ADVICE', 'SENT_TO_HOSPITAL', 'RETURNED', 'BOOKED', 'CHANGED',
        'CANCELLED', 'DONE', 'PATIENT_APPOINTMENT', 'PATIENT_CHANGED', 'PATIENT_CANCELLED')),
    add constraint letter_tells_of_decision check (
        (kind in ('INFORMATION_NEEDED', 'TRIAGED', 'ADVICE', 'SENT_TO_HOSPITAL', 'RETURNED')) = (decision is not null)),
    add constraint letter_tells_of_visit check (
        (kind in ('BOOKED', 'CHANGED', 'CANCELLED', 'PATIENT_APPOINTMENT', 'PATIENT_CHANGED', 'PATIENT_CANCELLED'))
            = (visit is not null)
        and (visit is null) = (visit_at is null));

create function guard_letter_visit() returns trigger language plpgsql as $$
begin
    raise exception 'letter % stays as it was written', old.id using errcode = 'integrity_constraint_violation';
end
$$;

create trigger letter_visit_guarded before update on letter
    for each row when ((new.visit, new.visit_at) is distinct from (old.visit, old.visit_at))
    execute function guard_letter_visit();
create unique index letter_done_once on letter (referral) where kind = 'DONE';
create index letter_of_visit on letter (referral, visit, id) where visit is not null;

-- The words of a kind of letter in a language, as the practice published them; version by version. The newest counts.
create table letter_wording (
    id bigint generated always as identity primary key,
    kind text not null check (kind ~ '^[A-Z_]+$'),
    language text not null check (language ~ '^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$'),
    version integer not null check (version > 0),
    -- Null where the practice went back to the words that are shipped.
    text text check (text ~ '\S' and length(text) <= 6000),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (kind, language, version)
);

create trigger letter_wording_append_only before update or delete on letter_wording
    for each row execute function refuse_to_rewrite();
create trigger letter_wording_never_emptied before truncate on letter_wording
    for each statement execute function refuse_to_rewrite();

-- The language of letters to whom nobody has chosen another for; the newest row counts.
create table letter_language (
    id bigint generated always as identity primary key,
    language text not null check (language ~ '^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null
);

create trigger letter_language_append_only before update or delete on letter_language
    for each row execute function refuse_to_rewrite();
create trigger letter_language_never_emptied before truncate on letter_language
    for each statement execute function refuse_to_rewrite();

-- The language in which a referring doctor wants letters; empty where nobody has said so.
alter table directory_entry
    add column language text not null default ''
        check (language = '' or language ~ '^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$');
alter table directory_entry
    add constraint directory_hospital_reads_no_letter check (kind = 'REFERRER' or language = '');
