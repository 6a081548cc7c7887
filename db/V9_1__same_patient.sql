-- One person, two referrals: what people said about a pair, and referrals that became part of another.

-- What somebody said of two referrals; the last word counts.
create table person_judgement (
    id bigint generated always as identity primary key,
    lower bigint not null references referral,
    higher bigint not null references referral,
    verdict text not null check (verdict in ('SAME_PERSON', 'TWO_PEOPLE', 'TAKEN_BACK')),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    constraint person_judgement_of_two check (lower < higher)
);

create index person_judgement_of on person_judgement (lower, higher, id desc);
create index person_judgement_of_higher on person_judgement (higher);

create trigger person_judgement_append_only before update or delete on person_judgement
    for each row execute function refuse_to_rewrite();
create trigger person_judgement_never_emptied before truncate on person_judgement
    for each statement execute function refuse_to_rewrite();

-- The referral that this one is part of. A part stays as it is, with its documents, letters and timeline, and no list shows
-- it.
alter table referral add column part_of bigint references referral;
alter table referral add constraint referral_no_part_of_itself check (part_of <> id);
alter table referral add constraint referral_part_undecided
    check (part_of is null or (state in ('DRAFT', 'QUEUED') and decision is null));

create index referral_parts on referral (part_of) where part_of is not null;

create table merging (
    id bigint generated always as identity primary key,
    whole bigint not null references referral,
    part bigint not null references referral,
    -- The document of the whole, before and after.
    before json not null check (json_typeof(before) = 'object'),
    after json not null check (json_typeof(after) = 'object'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    undone_by text check (undone_by ~ '\S'),
    undone_at timestamptz,
    constraint merging_of_two check (whole <> part),
    constraint merging_undone_by_somebody check ((undone_by is null) = (undone_at is null))
);

create unique index merging_once on merging (part) where undone_at is null;
create index merging_into on merging (whole);
create index merging_from on merging (part);

create function guard_merging() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'merging % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if old.undone_at is not null
            or (new.id, new.whole, new.part, new.before::text, new.after::text, new.author, new.at)
               is distinct from
               (old.id, old.whole, old.part, old.before::text, old.after::text, old.author, old.at) then
        raise exception 'merging % is only undone, and once', old.id using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger merging_guarded before update or delete on merging
    for each row execute function guard_merging();
create trigger merging_never_emptied before truncate on merging
    for each statement execute function refuse_to_rewrite();

-- A part rests until it is taken out again; what becomes a part was never decided on, and has no parts of its own.
create function guard_part() returns trigger language plpgsql as $$
begin
    if old.part_of is not null and (new.part_of is not null or new.document::text <> old.document::text
                                    or new.state <> old.state) then
        raise exception 'referral % is part of another', old.reference using errcode = 'integrity_constraint_violation';
    end if;
    if old.part_of is null and new.part_of is not null then
        if new.document::text <> old.document::text or new.state <> old.state
                or exists (select from decision where referral = new.id)
                or exists (select from referral where part_of = new.id)
                or exists (select from referral where id = new.part_of and part_of is not null) then
            raise exception 'referral % cannot become part of another', old.reference
                using errcode = 'integrity_constraint_violation';
        end if;
    end if;
    return new;
end
$$;

create trigger referral_part_guarded before update on referral
    for each row when (old.part_of is not null or new.part_of is not null) execute function guard_part();
