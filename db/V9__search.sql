-- What is searched for: names and numbers, and the words of every letter, kept beside each referral by the database
-- itself, in the transaction that changes it. The referral and its letters count; a row here can be made again
-- at any time.

-- Both are trusted: whoever owns the database may create them. Where not even that is allowed, an administrator creates
-- them once, and this finds them there.
create extension if not exists unaccent;
create extension if not exists pg_trgm;

-- Lower case, without accents, everything that is no letter and no digit a space. Not immutable, since the rules of
-- unaccent are a file that an administrator may change.
create function folded(words text) returns text language sql stable parallel safe return
    btrim(regexp_replace(
        -- Marks above and below letters, of scripts that unaccent does not know.
        regexp_replace(lower(unaccent(normalize(words, nfkc))),
            '[\u0300-\u036f\u0591-\u05bd\u05bf\u05c1\u05c2\u05c4\u05c5\u05c7'
                || '\u0610-\u061a\u064b-\u065f\u0670]',
            '', 'g'),
        -- Named one by one, so that no locale decides what a letter is.
        '[\u0001-/:-@\[-`{-\u00b4\u00b6-\u00b9\u00bb-\u00bf\u00d7\u00f7\u02b0-\u02ff\u05be'
            || '\u2000-\u206f\u2190-\u2bff\u3000-\u303f\ufe00-\ufe0f\ufffd\U0001f000-\U0001faff]+',
        ' ', 'g'));

create function digits(words text) returns text language sql immutable parallel safe return
    regexp_replace(words, '[^0-9]', '', 'g');

-- A telephone number by its last nine digits, which are the same with a country code, with a zero, and with neither.
create function phone_end(phone text) returns text language sql immutable parallel safe return
    case when length(digits(phone)) >= 7 then right(digits(phone), 9) end;

-- A number as it is typed with signs and spaces, and without.
create function number_words(number text) returns text language sql stable parallel safe return
    concat_ws(' ', folded(number), replace(folded(number), ' ', ''), phone_end(number));

-- An ISO date of the calendar, or nothing.
create function calendar_date(day text) returns date language plpgsql stable parallel safe as $$
begin
    if day ~ '^\d{4}-\d{2}-\d{2}$' then
        return day::date;
    end if;
    return null;
exception when datetime_field_overflow or invalid_datetime_format then
    return null;
end
$$;

create table searchable (
    referral bigint primary key references referral,
    -- Who: name, reference, identifiers, telephone.
    who tsvector not null,
    -- Those again, then referrer and hospitals, then reasons, then the words of letters.
    words tsvector not null,
    -- The name folded; and its parts in the order of the alphabet, so that given and family name may be swapped.
    name text not null,
    name_key text not null,
    born date,
    phone text,
    identifiers text[] not null
);

create index searchable_who on searchable using gin (who);
create index searchable_words on searchable using gin (words);
create index searchable_name on searchable using gin (name gin_trgm_ops);
create index searchable_name_key on searchable (name_key) where name_key <> '';
create index searchable_born on searchable (born) where born is not null;
create index searchable_phone on searchable (phone) where phone is not null;
create index searchable_identifiers on searchable using gin (identifiers);

create function text_of(document jsonb, path jsonpath) returns text language sql immutable parallel safe return (
    select coalesce(string_agg(value #>> '{}', ' '), '')
    from jsonb_path_query(document, path) as found (value)
    where jsonb_typeof(value) in ('string', 'number')
);

create function make_searchable(of_referral bigint) returns void language plpgsql as $$
declare
    about referral;
    d jsonb;
    numbers text;
    full_name text;
    letters text;
    own tsvector;
    -- The longest text of which the words are kept, in characters.
    longest constant integer := 200000;
begin
    select * into about from referral where id = of_referral;
    select coalesce(string_agg(text, ' ' order by id desc), '') into letters from letter where referral = of_referral;
    d := about.document::jsonb;
    full_name := left(concat_ws(' ', text_of(d, 'lax $.patient.given'), text_of(d, 'lax $.patient.family')), 1000);
    numbers := left(concat_ws(' ', number_words(about.reference),
            (select string_agg(number_words(value #>> '{}'), ' ')
             from jsonb_path_query(d, 'lax $.patient.identifiers[*].value') as found (value)),
            number_words(text_of(d, 'lax $.patient.phone'))), 10000);
    own := to_tsvector('simple', concat_ws(' ', folded(full_name), numbers));
    insert into searchable as s (referral, who, words, name, name_key, born, phone, identifiers)
    values (
        of_referral,
        own,
        setweight(own, 'A')
            || setweight(to_tsvector('simple', folded(left(concat_ws(' ',
                   text_of(d, 'lax $.referrer.name'), text_of(d, 'lax $.referrer.organisation'),
                   text_of(d, 'lax $.imaging[*].where'), text_of(d, 'lax $.procedures[*].where'),
                   text_of(d, 'lax $.deferredElsewhere.where')), 20000))), 'B')
            || setweight(to_tsvector('simple', folded(left(concat_ws(' ',
                   text_of(d, 'lax $.asked.reason'), text_of(d, 'lax $.imaging[*].findings'),
                   text_of(d, 'lax $.procedures[*].reason'),
                   text_of(d, 'lax $.deferredElsewhere.reason')), 50000))), 'C')
            || setweight(to_tsvector('simple', folded(left(concat_ws(' ',
                   left(text_of(d, 'lax $.letterText'), longest), letters), 2 * longest))), 'D'),
        folded(full_name),
        coalesce((select string_agg(part, ' ' order by part)
                  from regexp_split_to_table(folded(full_name), ' ') as part), ''),
        calendar_date(text_of(d, 'lax $.patient.born')),
        phone_end(text_of(d, 'lax $.patient.phone')),
        coalesce((select array_agg(distinct replace(folded(value #>> '{}'), ' ', ''))
                  from jsonb_path_query(d, 'lax $.patient.identifiers[*].value') as found (value)
                  where replace(folded(value #>> '{}'), ' ', '') <> ''), '{}'))
    on conflict (referral) do update
    set who = excluded.who, words = excluded.words, name = excluded.name, name_key = excluded.name_key,
        born = excluded.born, phone = excluded.phone, identifiers = excluded.identifiers;
exception when data_exception or program_limit_exceeded then
    -- What was typed is kept whatever can be searched of it: a character that the database has no room for, or words
    -- without end. Its reference is found all the same.
    insert into searchable as s (referral, who, words, name, name_key, identifiers)
    values (of_referral, to_tsvector('simple', number_words(about.reference)),
            to_tsvector('simple', number_words(about.reference)), '', '', '{}')
    on conflict (referral) do update
    set who = excluded.who, words = excluded.words, name = '', name_key = '', born = null, phone = null,
        identifiers = '{}';
end
$$;

create function keep_referral_searchable() returns trigger language plpgsql as $$
begin
    perform make_searchable(new.id);
    return null;
end
$$;

create function keep_letter_searchable() returns trigger language plpgsql as $$
begin
    perform make_searchable(new.referral);
    return null;
end
$$;

create trigger referral_searchable_when_added after insert on referral
    for each row execute function keep_referral_searchable();
create trigger referral_searchable_when_changed after update on referral
    for each row when (new.document::text is distinct from old.document::text)
    execute function keep_referral_searchable();
create trigger letter_searchable after insert on letter
    for each row execute function keep_letter_searchable();

-- Referrals that were here before.
do $$ begin perform make_searchable(id) from referral; end $$;
