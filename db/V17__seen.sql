-- Who saw which version of a referral, and as of which day it was triaged then: so that each physician is shown what is new
-- to them.
create table referral_seen (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    version integer not null check (version > 0),
    account bigint not null references account,
    -- The day as of which the proposal was made, and by which policy.
    as_of date not null,
    policy text not null check (policy ~ '\S'),
    at timestamptz not null,
    unique (account, referral, version, as_of, policy)
);

create trigger referral_seen_append_only before update or delete on referral_seen
    for each row execute function refuse_to_rewrite();
create trigger referral_seen_never_emptied before truncate on referral_seen
    for each statement execute function refuse_to_rewrite();
