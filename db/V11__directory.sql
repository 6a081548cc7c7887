-- Whom the practice hears from: referring doctors and hospitals, as they were entered, corrected and merged.
create table directory_entry (
    id bigint generated always as identity primary key,
    version integer not null default 1 check (version > 0),
    kind text not null check (kind in ('REFERRER', 'HOSPITAL')),
    name text not null check (name ~ '\S' and length(name) <= 200),
    -- Of a referring doctor: where he or she works. A hospital has its name alone.
    organisation text not null default '' check (length(organisation) <= 200),
    address text not null default '' check (length(address) <= 2000),
    phone text not null default '' check (length(phone) <= 200),
    fax text not null default '' check (length(fax) <= 200),
    email text not null default '' check (length(email) <= 200),
    prefers text not null default '' check (prefers in ('', 'post', 'fax', 'email')),
    last_entered date not null,
    -- The entry that stands for this one since somebody said that both are the same.
    merged_into bigint references directory_entry check (merged_into <> id),
    constraint directory_hospital_is_a_name check (kind = 'REFERRER' or (organisation = '' and prefers = ''))
);

-- Two entries that differ only in capitals are one.
create unique index directory_entry_once on directory_entry (kind, lower(name), lower(organisation));
create index directory_entry_standing on directory_entry (kind, last_entered desc) where merged_into is null;

-- What was entered before there was a directory. A field that is no text, or too long, is left out; so is a document with
-- a character that text cannot hold, in which nothing can be looked up.
create temporary table entered on commit drop as
    select document, received from referral where state <> 'DRAFT' and position('\u0000' in document::text) = 0;

create function pg_temp.told(part json, field text, most integer) returns text language plpgsql as $$
declare
    told text;
begin
    if json_typeof(part) is distinct from 'object' or json_typeof(part -> field) is distinct from 'string' then
        return '';
    end if;
    told := btrim(part ->> field, E' \t\r\n');
    return case when length(told) <= most then told else '' end;
end
$$;

insert into directory_entry (kind, name, organisation, address, phone, fax, email, prefers, last_entered)
select distinct on (lower(name), lower(organisation))
    'REFERRER', name, organisation, address, phone, fax, email,
    case when prefers in ('post', 'fax', 'email') then prefers else '' end, received
from (
    select pg_temp.told(document -> 'referrer', 'name', 200) as name,
        pg_temp.told(document -> 'referrer', 'organisation', 200) as organisation,
        pg_temp.told(document -> 'referrer', 'address', 2000) as address,
        pg_temp.told(document -> 'referrer', 'phone', 200) as phone,
        pg_temp.told(document -> 'referrer', 'fax', 200) as fax,
        pg_temp.told(document -> 'referrer', 'email', 200) as email,
        pg_temp.told(document -> 'referrer', 'prefers', 10) as prefers,
        received
    from entered) as referrer
where name ~ '\S'
order by lower(name), lower(organisation), received desc;

insert into directory_entry (kind, name, last_entered)
select distinct on (lower(name)) 'HOSPITAL', name, received
from (
    select pg_temp.told(entry, 'where', 200) as name, received
    from entered,
        lateral (
            select value as entry from json_array_elements(
                case when json_typeof(document -> 'imaging') = 'array' then document -> 'imaging' else '[]'::json end)
            union all
            select value from json_array_elements(
                case when json_typeof(document -> 'procedures') = 'array' then document -> 'procedures'
                    else '[]'::json end)
            union all
            select document -> 'deferredElsewhere') as entries) as hospital
where name ~ '\S'
order by lower(name), received desc;
