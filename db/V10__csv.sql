-- Files with commas that become referrals: the file, what its columns mean, how far it has come, and which rows are in.

-- What the columns of a header meant last time.
create table csv_mapping (
    -- Digest of the names of the columns.
    header text primary key check (header ~ '^[0-9a-f]{64}$'),
    mapping json not null check (json_typeof(mapping) = 'object'),
    date_order text not null check (date_order in ('YEAR_FIRST', 'DAY_FIRST', 'MONTH_FIRST')),
    at timestamptz not null default clock_timestamp()
);

create table csv_import (
    id bigint generated always as identity primary key,
    name text not null check (name ~ '\S'),
    content bytea not null check (length(content) > 0),
    rows integer not null check (rows >= 0),
    state text not null check (state in ('LOADED', 'RUNNING', 'CANCELLED', 'DONE')),
    -- Null until somebody has said what the columns are.
    mapping json check (json_typeof(mapping) = 'object'),
    date_order text check (date_order in ('YEAR_FIRST', 'DAY_FIRST', 'MONTH_FIRST')),
    -- Rows of the file that were looked at, and what became of them.
    seen integer not null default 0 check (seen >= 0),
    entered integer not null default 0 check (entered >= 0),
    known integer not null default 0 check (known >= 0),
    refused integer not null default 0 check (refused >= 0),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    constraint csv_import_mapped_before_it_runs
        check (state = 'LOADED' or (mapping is not null and date_order is not null)),
    constraint csv_import_adds_up check (seen = entered + known + refused and seen <= rows)
);

-- Every row that became a referral, by the digest of its cells under their columns: no row becomes two.
create table csv_row (
    digest text primary key check (digest ~ '^[0-9a-f]{64}$'),
    import bigint not null references csv_import,
    -- As a spreadsheet counts it, the header being the first.
    line integer not null check (line > 1),
    referral bigint not null references referral,
    at timestamptz not null
);

create index csv_row_of on csv_row (import);
create index csv_row_became on csv_row (referral);

create trigger csv_row_append_only before update or delete on csv_row
    for each row execute function refuse_to_rewrite();
create trigger csv_row_never_emptied before truncate on csv_row
    for each statement execute function refuse_to_rewrite();
