-- Who leads, the policy that is being written, when a second physician looks; and what moved of referrals that wait.

-- Decisions that a second physician looks at. Common practice, no source.
alter table policy_version
    -- A tier that was lowered although a red flag stood against it.
    add column second_look_red_flag boolean not null default true,
    -- A tier that was lowered below what a limb-threatening grade calls for.
    add column second_look_limb_threat boolean not null default true;

-- The physician whom the practice names as lead; the newest row counts.
create table lead_physician (
    id bigint generated always as identity primary key,
    -- Null where nobody leads alone.
    lead bigint references account,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null default clock_timestamp()
);

create trigger lead_physician_append_only before update or delete on lead_physician
    for each row execute function refuse_to_rewrite();
create trigger lead_physician_never_emptied before truncate on lead_physician
    for each statement execute function refuse_to_rewrite();

-- Every step of the draft of the next policy. The newest row that was not overtaken is the draft, unless that ended it.
create table policy_draft (
    id bigint generated always as identity primary key,
    -- The step that this one was made on; null where a draft was begun.
    made_on bigint references policy_draft,
    -- What stands in the fields, as typed, whether it can be right or not.
    typed json not null check (json_typeof(typed) = 'object'),
    -- Somebody else had saved first: kept, but not the draft.
    overtaken boolean not null,
    ended text check (ended in ('PUBLISHED', 'DISCARDED')),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    constraint policy_draft_overtaken_ends_nothing check (not overtaken or ended is null)
);

create trigger policy_draft_append_only before update or delete on policy_draft
    for each row execute function refuse_to_rewrite();
create trigger policy_draft_never_emptied before truncate on policy_draft
    for each statement execute function refuse_to_rewrite();

-- Where the latest proposal puts a referral. Null where it was kept before this was.
alter table latest_proposal
    add column tier text
        check (tier in ('SAME_DAY', 'WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY')),
    add column target_date date,
    -- Codes of the red flags.
    add column flags text[],
    add constraint latest_proposal_placed check ((tier is null) = (flags is null));

-- A proposal that took the place of another one and differs in tier, target date or red flags.
create table proposal_move (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The version that the referral had, or became, when it moved.
    version integer not null check (version > 0),
    cause text not null check (cause in ('RULE_BOOK', 'DAY', 'POLICY', 'RESULT')),
    -- Who entered the result; null where nobody did anything.
    author text check (author ~ '\S'),
    as_of date not null,
    policy text not null references policy_version (policy),
    tier_before text not null
        check (tier_before in ('SAME_DAY', 'WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY')),
    tier_after text not null
        check (tier_after in ('SAME_DAY', 'WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY')),
    target_before date,
    target_after date,
    flags_before text[] not null,
    flags_after text[] not null,
    at timestamptz not null,
    constraint proposal_move_author check ((cause = 'RESULT') = (author is not null))
);

create index proposal_move_of on proposal_move (referral, id);

create trigger proposal_move_append_only before update or delete on proposal_move
    for each row execute function refuse_to_rewrite();
create trigger proposal_move_never_emptied before truncate on proposal_move
    for each statement execute function refuse_to_rewrite();

-- Moves that a physician has seen without deciding on the referral.
create table move_seen (
    move bigint primary key references proposal_move,
    referral bigint not null references referral,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null
);

create trigger move_seen_append_only before update or delete on move_seen
    for each row execute function refuse_to_rewrite();
create trigger move_seen_never_emptied before truncate on move_seen
    for each statement execute function refuse_to_rewrite();

create constraint trigger proposal_move_told after insert on proposal_move
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger move_seen_told after insert on move_seen
    deferrable initially deferred for each row execute function tell_change('referral');
