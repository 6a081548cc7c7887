-- Who looks at what; same-day cases that ring; decisions taken back; the second look.

-- Open pages of referrals and who sits in front of them. It holds for this moment alone, so a crash may lose it.
create unlogged table onlooker (
    page uuid primary key,
    referral bigint not null references referral,
    account bigint not null references account,
    who text not null check (who ~ '\S'),
    role text not null check (role in ('COORDINATOR', 'PHYSICIAN')),
    since timestamptz not null,
    -- A server says again and again that its pages are still open; what it has said nothing of for a while is gone with it.
    renewed_at timestamptz not null
);

create index onlooker_at on onlooker (referral);

-- Tells whoever listens and counts nothing: that somebody looks at a referral is no change of it.
create function tell_presence() returns trigger language plpgsql as $$
begin
    perform pg_notify('limbqueue_changed', coalesce(new.referral, old.referral)::text);
    return null;
end
$$;

create trigger onlooker_told after insert or delete on onlooker
    for each row execute function tell_presence();

-- A same-day case, from the moment it is before the physician until it is so no more. It rings until somebody takes it.
create table same_day_case (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    since timestamptz not null default clock_timestamp(),
    -- Asked of more people, once, since nobody had taken it for so many minutes.
    escalated_at timestamptz,
    escalated_after integer check (escalated_after > 0),
    escalated_to text check (escalated_to ~ '\S'),
    taken_at timestamptz,
    taken_by text check (taken_by ~ '\S'),
    account bigint references account,
    over_at timestamptz,
    constraint same_day_case_escalated
        check ((escalated_at is null) = (escalated_after is null) and (escalated_at is null) = (escalated_to is null)),
    constraint same_day_case_taken
        check ((taken_at is null) = (taken_by is null) and (taken_at is null) = (account is null))
);

create unique index same_day_case_current on same_day_case (referral) where over_at is null;
create index same_day_case_rings on same_day_case (id) where over_at is null and taken_at is null;
create index same_day_case_of on same_day_case (referral, id);

create function guard_same_day_case() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'same-day case % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if (new.id, new.referral, new.since) is distinct from (old.id, old.referral, old.since)
            or (old.escalated_at is not null
                and (new.escalated_at, new.escalated_after, new.escalated_to) is distinct from
                    (old.escalated_at, old.escalated_after, old.escalated_to))
            or (old.taken_at is not null
                and (new.taken_at, new.taken_by, new.account) is distinct from (old.taken_at, old.taken_by, old.account))
            or (old.over_at is not null and new.over_at is distinct from old.over_at) then
        raise exception 'same-day case % keeps what happened to it', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger same_day_case_guarded before update or delete on same_day_case
    for each row execute function guard_same_day_case();
create trigger same_day_case_never_emptied before truncate on same_day_case
    for each statement execute function refuse_to_rewrite();

-- Whatever makes a referral a same-day case, or makes it one no more, is seen here: a submission, a result, a decision, a
-- merge, a day that passed. At the end of the transaction, when state and proposal go together.
create function ring_same_day() returns trigger language plpgsql as $$
declare
    about bigint;
    due boolean;
begin
    if tg_argv[0] = 'id' then
        about := new.id;
    else
        about := new.referral;
    end if;
    select exists (
        select
        from referral r join latest_proposal p on p.referral = r.id
        where r.id = about and r.state = 'QUEUED' and r.part_of is null and p.tier = 'SAME_DAY')
    into due;
    if due then
        insert into same_day_case (referral) values (about) on conflict do nothing;
    else
        update same_day_case set over_at = clock_timestamp() where referral = about and over_at is null;
    end if;
    return null;
end
$$;

create constraint trigger referral_rings after update on referral
    deferrable initially deferred for each row
    when (old.state <> new.state or old.part_of is distinct from new.part_of) execute function ring_same_day('id');
create constraint trigger latest_proposal_rings after insert or update of tier on latest_proposal
    deferrable initially deferred for each row execute function ring_same_day('referral');
create constraint trigger same_day_case_told after insert or update on same_day_case
    deferrable initially deferred for each row execute function tell_change('referral');

-- What the practice has chosen for same-day cases; version by version.
create table same_day_choice (
    version integer primary key check (version > 0),
    -- Minutes after which a case that nobody has taken is asked of more people.
    minutes integer not null check (minutes between 1 and 240),
    -- Where the practice sends such patients, and whom else to ask; empty where nobody has said so yet.
    hospital text not null check (length(hospital) <= 120),
    hospital_phone text not null check (length(hospital_phone) <= 60),
    lead_phone text not null check (length(lead_phone) <= 60),
    -- Null where the product brought it.
    account bigint references account,
    who text not null check (who ~ '\S'),
    at timestamptz not null default clock_timestamp(),
    reason text not null check (reason ~ '\S')
);

-- The practice's choice, no source.
insert into same_day_choice (version, minutes, hospital, hospital_phone, lead_phone, who, reason)
values (1, 15, '', '', '', 'LimbQueue', 'What the product comes with.');

create trigger same_day_choice_append_only before update or delete on same_day_choice
    for each row execute function refuse_to_rewrite();
create trigger same_day_choice_never_emptied before truncate on same_day_choice
    for each statement execute function refuse_to_rewrite();
create constraint trigger same_day_choice_told after insert on same_day_choice
    deferrable initially deferred for each row execute function tell_change('everything');

-- A decision taken back, minutes after it was made. The decision stays as it was made; what it came to is undone.
create table decision_taken_back (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The version that the referral became.
    version integer not null check (version > 0),
    decision bigint not null,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (referral, version),
    unique (decision),
    foreign key (referral, decision) references decision (referral, id)
);

create trigger decision_taken_back_append_only before update or delete on decision_taken_back
    for each row execute function refuse_to_rewrite();
create trigger decision_taken_back_never_emptied before truncate on decision_taken_back
    for each statement execute function refuse_to_rewrite();

create or replace function guard_referral() returns trigger language plpgsql as $$
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
            ('INFORMATION_NEEDED', 'INFORMATION_NEEDED'), ('INFORMATION_NEEDED', 'QUEUED'),
            -- A result came: the decision stands, or the referral is before the physician again.
            ('APPROVED', 'APPROVED'), ('APPROVED', 'QUEUED'),
            -- The decision was taken back.
            ('RETURNED', 'QUEUED'), ('SENT_TO_HOSPITAL', 'QUEUED')) then
        raise exception 'referral % cannot go from % to %', old.reference, old.state, new.state
            using errcode = 'integrity_constraint_violation';
    end if;
    if old.state = 'APPROVED' and new.state = 'APPROVED' and new.decision is distinct from old.decision then
        raise exception 'referral % keeps its decision', old.reference using errcode = 'integrity_constraint_violation';
    end if;
    if old.state in ('APPROVED', 'RETURNED', 'SENT_TO_HOSPITAL') and new.state = 'QUEUED'
            and not exists (
                select from decision_taken_back
                where referral = new.id and version = new.version and decision = old.decision)
            and (old.state <> 'APPROVED' or not exists (
                select from reopening
                where referral = new.id and version = new.version and decision = old.decision)) then
        raise exception 'referral % is not put back without saying what changed', old.reference
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

-- A letter that tells of a decision taken back never leaves.
alter table letter add column withdrawn_at timestamptz;
alter table letter add constraint letter_withdrawn_was_not_sent check (withdrawn_at is null or sent_at is null);

-- A tier that a physician would lower, before a second one. The proposal stands until that one agrees.
create table second_look (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The version that the referral became. The look is open while the referral is in the queue at it.
    version integer not null check (version > 0),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    proposed_tier text not null
        check (proposed_tier in ('SAME_DAY', 'WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY')),
    tier text not null
        check (tier in ('WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY')),
    left_category text,
    right_category text,
    reason text not null check (reason ~ '\S'),
    -- What stands against it, one phrase each.
    against text[] not null check (cardinality(against) > 0),
    unique (referral, version)
);

create table second_look_answer (
    second_look bigint primary key references second_look,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    agreed boolean not null,
    -- Why not; nothing where it was agreed.
    words text not null,
    decision bigint references decision,
    constraint second_look_answer_decides check (agreed = (decision is not null)),
    constraint second_look_answer_says_why_not check (agreed or words ~ '\S')
);

create function guard_second_look() returns trigger language plpgsql as $$
begin
    if exists (select from second_look where id = new.second_look and account = new.account) then
        raise exception 'second look % is for another physician', new.second_look
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger second_look_answer_by_another before insert on second_look_answer
    for each row execute function guard_second_look();
create trigger second_look_append_only before update or delete on second_look
    for each row execute function refuse_to_rewrite();
create trigger second_look_never_emptied before truncate on second_look
    for each statement execute function refuse_to_rewrite();
create trigger second_look_answer_append_only before update or delete on second_look_answer
    for each row execute function refuse_to_rewrite();
create trigger second_look_answer_never_emptied before truncate on second_look_answer
    for each statement execute function refuse_to_rewrite();
