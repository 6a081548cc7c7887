-- What proposals are made by: the practice's policy, version by version, and the product's rule book, text by text.

create table policy_version (
    version integer primary key check (version > 0),
    -- As results and decisions print it; every version has its own.
    policy text not null unique check (policy ~ '\S'),
    content json not null check (json_typeof(content) = 'object'),
    valid_from date not null,
    -- Null where the product brought it.
    account bigint references account,
    who text not null check (who ~ '\S'),
    at timestamptz not null default clock_timestamp(),
    reason text not null check (reason ~ '\S'),
    constraint policy_version_prints_its_id check (content ->> 'id' = policy)
);

create trigger policy_version_append_only before update or delete on policy_version
    for each row execute function refuse_to_rewrite();
create trigger policy_version_never_emptied before truncate on policy_version
    for each statement execute function refuse_to_rewrite();

insert into policy_version (version, policy, content, valid_from, who, reason)
values (1, 'standard-1',
        '{"id":"standard-1","days":{"sameDay":0,"within5Days":5,"within14Days":14,"within6Weeks":42,"within18Weeks":126},"validity":{"creatinine":30,"creatinineWhenImpaired":7,"bloodCount":30,"inr":1,"imagingMonths":6}}',
        date '2000-01-01', 'LimbQueue', 'The policy that the product comes with.');

alter table decision add foreign key (policy) references policy_version (policy);

create table rule_book (
    -- Digest of the files.
    id text primary key check (id ~ '^[0-9a-f]{16}$'),
    -- The text of each file by its name. json, not jsonb: kept to the byte.
    files json not null check (json_typeof(files) = 'object'),
    first_used timestamptz not null default clock_timestamp()
);

create trigger rule_book_append_only before update or delete on rule_book
    for each row execute function refuse_to_rewrite();
create trigger rule_book_never_emptied before truncate on rule_book
    for each statement execute function refuse_to_rewrite();

alter table decision add column rule_book text references rule_book;
-- Not checked of decisions made before rule books were kept.
alter table decision add constraint decision_names_its_rule_book check (rule_book is not null) not valid;

-- What was proposed last for each referral once it is no draft any more: by what, and which rules it rests on.
create table latest_proposal (
    referral bigint primary key references referral,
    as_of date not null,
    policy text not null references policy_version (policy),
    rule_book text not null references rule_book,
    rules text[] not null check (cardinality(rules) > 0)
);

-- In how many of the latest proposals each rule speaks. Kept up to date below, so that nobody counts from end to end.
create table rule_firing (
    rule text primary key,
    referrals integer not null
);

create function count_firings() returns trigger language plpgsql as $$
begin
    -- In the order of the rules, so that two who change the same counts wait for each other and never in a ring.
    if tg_op = 'INSERT' then
        insert into rule_firing as f (rule, referrals)
        select rule, count(*) from added cross join lateral unnest(rules) as rule group by rule order by rule
        on conflict (rule) do update set referrals = f.referrals + excluded.referrals;
    elsif tg_op = 'DELETE' then
        insert into rule_firing as f (rule, referrals)
        select rule, -count(*) from removed cross join lateral unnest(rules) as rule group by rule order by rule
        on conflict (rule) do update set referrals = f.referrals + excluded.referrals;
    else
        insert into rule_firing as f (rule, referrals)
        select rule, sum(step)
        from (
            select unnest(rules) as rule, 1 as step from added
            union all
            select unnest(rules), -1 from removed
        ) as change
        group by rule
        having sum(step) <> 0
        order by rule
        on conflict (rule) do update set referrals = f.referrals + excluded.referrals;
    end if;
    return null;
end
$$;

create trigger latest_proposal_counted_when_added after insert on latest_proposal
    referencing new table as added for each statement execute function count_firings();
create trigger latest_proposal_counted_when_changed after update on latest_proposal
    referencing old table as removed new table as added for each statement execute function count_firings();
create trigger latest_proposal_counted_when_removed after delete on latest_proposal
    referencing old table as removed for each statement execute function count_firings();
