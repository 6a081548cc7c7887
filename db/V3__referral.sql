-- A referral's life: the document as it stands, every document ever saved, every submission and every decision.

-- The last number given out in each year. A row, not a sequence: a number is used only if its referral is kept.
create table referral_number (
    year integer primary key check (year between 2000 and 9999),
    last integer not null check (last > 0)
);

create table referral (
    id bigint generated always as identity primary key,
    version integer not null default 1 check (version > 0),
    reference text not null unique check (reference ~ '\S'),
    state text not null
        check (state in ('DRAFT', 'QUEUED', 'INFORMATION_NEEDED', 'APPROVED', 'RETURNED', 'SENT_TO_HOSPITAL')),
    received date not null,
    -- json, not jsonb: kept to the byte, since a decision is made on exactly this.
    document json not null check (json_typeof(document) = 'object'),
    saved_by text not null check (saved_by ~ '\S'),
    saved_at timestamptz not null,
    submitted_at timestamptz,
    -- The decision that put the referral where it stands; none while it is open to be entered or decided.
    decision bigint,
    constraint referral_submitted_unless_draft check ((state = 'DRAFT') = (submitted_at is null)),
    constraint referral_decided_unless_open check ((state in ('DRAFT', 'QUEUED')) = (decision is null))
);

create index referral_open on referral (state) where state in ('DRAFT', 'QUEUED', 'INFORMATION_NEEDED');

-- Every document saved, also the one of somebody who was overtaken by another.
create table referral_revision (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The version it was made on; empty for the first.
    made_on integer check (made_on > 0),
    -- The version it became; empty when somebody else had saved first.
    version integer check (version > 0),
    won boolean not null,
    state text not null check (state in ('DRAFT', 'QUEUED', 'INFORMATION_NEEDED', 'APPROVED', 'RETURNED', 'SENT_TO_HOSPITAL')),
    document json not null check (json_typeof(document) = 'object'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    saved_at timestamptz not null,
    unique (referral, version),
    constraint referral_revision_won check (won = (version is not null)),
    constraint referral_revision_follows check (version is null or version = coalesce(made_on, 0) + 1)
);

create index referral_revision_of on referral_revision (referral, id);

create table submission (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    version integer not null check (version > 0),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (referral, version)
);

create table decision (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The version of the referral decided on: one decision a version.
    version integer not null check (version > 0),
    kind text not null check (kind in ('APPROVED', 'CHANGED', 'INFORMATION_ASKED', 'RETURNED', 'SENT_TO_HOSPITAL')),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    policy text not null check (policy ~ '\S'),
    as_of date not null,
    document json not null check (json_typeof(document) = 'object'),
    proposal json not null check (json_typeof(proposal) = 'object'),
    proposed_tier text not null
        check (proposed_tier in ('SAME_DAY', 'WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY')),
    tier text not null
        check (tier in ('SAME_DAY', 'WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY')),
    target_date date,
    left_category text
        check (left_category in ('CHRONIC_0', 'CHRONIC_1', 'CHRONIC_2', 'CHRONIC_3', 'CHRONIC_4', 'CHRONIC_5', 'CHRONIC_6',
                                 'ACUTE_I', 'ACUTE_IIA', 'ACUTE_IIB', 'ACUTE_III')),
    right_category text
        check (right_category in ('CHRONIC_0', 'CHRONIC_1', 'CHRONIC_2', 'CHRONIC_3', 'CHRONIC_4', 'CHRONIC_5', 'CHRONIC_6',
                                  'ACUTE_I', 'ACUTE_IIA', 'ACUTE_IIB', 'ACUTE_III')),
    reason text not null,
    unique (referral, version),
    unique (referral, id),
    constraint decision_reason check ((kind = 'APPROVED') = (reason !~ '\S')),
    constraint decision_target check ((tier = 'ADVICE_ONLY') = (target_date is null)),
    constraint decision_categories_only_changed
        check (kind = 'CHANGED' or (left_category is null and right_category is null)),
    constraint decision_changes_something
        check (kind <> 'CHANGED' or tier <> proposed_tier or left_category is not null or right_category is not null),
    constraint decision_tier_kept check (kind in ('CHANGED', 'SENT_TO_HOSPITAL') or tier = proposed_tier),
    constraint decision_hospital_is_same_day check (kind <> 'SENT_TO_HOSPITAL' or tier = 'SAME_DAY'),
    constraint decision_same_day_is_no_queue check (kind not in ('APPROVED', 'CHANGED') or tier <> 'SAME_DAY')
);

alter table referral add foreign key (id, decision) references decision (referral, id);

create trigger referral_revision_append_only before update or delete on referral_revision
    for each row execute function refuse_to_rewrite();
create trigger referral_revision_never_emptied before truncate on referral_revision
    for each statement execute function refuse_to_rewrite();
create trigger submission_append_only before update or delete on submission
    for each row execute function refuse_to_rewrite();
create trigger submission_never_emptied before truncate on submission
    for each statement execute function refuse_to_rewrite();
create trigger decision_append_only before update or delete on decision
    for each row execute function refuse_to_rewrite();
create trigger decision_never_emptied before truncate on decision
    for each statement execute function refuse_to_rewrite();

-- A referral moves along its way one version at a time, and what is decided stays as decided.
create function guard_referral() returns trigger language plpgsql as $$
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
            ('INFORMATION_NEEDED', 'INFORMATION_NEEDED'), ('INFORMATION_NEEDED', 'QUEUED')) then
        raise exception 'referral % cannot go from % to %', old.reference, old.state, new.state
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger referral_guarded before update or delete on referral
    for each row execute function guard_referral();
