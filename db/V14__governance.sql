-- What the figures of governance are counted from: of each decision what was proposed, by which rules, and what was decided.
-- No name of a patient. The decision counts; a row here can be made again at any time.

create table decision_fact (
    decision bigint primary key references decision,
    referral bigint not null,
    at timestamptz not null,
    kind text not null,
    account bigint not null,
    author text not null,
    proposed_tier text not null,
    tier text not null,
    target_date date,
    -- What gave a reason for grades or urgency, and the red flags.
    rules text[] not null,
    red_flags text[] not null,
    received date not null,
    waiting_since date not null,
    born date,
    sex text check (sex in ('FEMALE', 'MALE', 'OTHER')),
    referrer text check (referrer ~ '\S'),
    -- Whether somebody asked for haste; null where nobody said.
    haste boolean
);

create index decision_fact_at on decision_fact (at);
create index decision_fact_of on decision_fact (referral, at);

create function make_decision_fact(made decision) returns void language plpgsql as $$
declare
    proposed jsonb;
    d jsonb;
    came date;
begin
    begin
        proposed := made.proposal::jsonb;
        d := made.document::jsonb;
    exception when data_exception then
        -- A character that text cannot hold: the decision is counted, its rules and groups are not.
        proposed := '{}';
        d := '{}';
    end;
    select coalesce(calendar_date(d ->> 'received'), received) into came from referral where id = made.referral;
    insert into decision_fact (decision, referral, at, kind, account, author, proposed_tier, tier, target_date, rules,
                               red_flags, received, waiting_since, born, sex, referrer, haste)
    values (made.id, made.referral, made.at, made.kind, made.account, made.author, made.proposed_tier, made.tier,
            made.target_date,
            array(select distinct rule #>> '{}'
                  from jsonb_path_query(proposed, 'strict $.reasons[*].rule', silent => true) as rule
                  union
                  select flag #>> '{}'
                  from jsonb_path_query(proposed, 'strict $.redFlags[*].code', silent => true) as flag
                  order by 1),
            array(select distinct flag #>> '{}'
                  from jsonb_path_query(proposed, 'strict $.redFlags[*].code', silent => true) as flag
                  order by 1),
            came,
            coalesce(calendar_date(proposed #>> '{urgency,waitingSince}'), came),
            calendar_date(d #>> '{patient,born}'),
            case d #>> '{patient,sex}' when 'female' then 'FEMALE' when 'male' then 'MALE' when 'other' then 'OTHER' end,
            nullif(btrim(concat_ws(', ', nullif(btrim(d #>> '{referrer,name}'), ''),
                                   nullif(btrim(d #>> '{referrer,organisation}'), ''))), ''),
            case when d #> '{asked,expedite}' = 'true' or d #>> '{asked,priority}' in ('urgent', 'asap', 'stat') then true
                 when d #> '{asked,expedite}' = 'false' or d #>> '{asked,priority}' = 'routine' then false end);
end
$$;

create function keep_decision_fact() returns trigger language plpgsql as $$
begin
    perform make_decision_fact(new);
    return null;
end
$$;

select make_decision_fact(decision) from decision;

create trigger decision_counted after insert on decision
    for each row execute function keep_decision_fact();
