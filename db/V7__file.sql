-- Files that came with a referral: letters, reports, pictures. Kept as they came, and never changed.
create table referral_file (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    -- The name that it came with.
    name text not null check (name ~ '\S' and length(name) <= 255),
    -- What it is by its content.
    type text not null check (type in ('TEXT', 'PDF', 'DOCX', 'PNG', 'JPEG', 'TIFF')),
    size integer not null check (size > 0),
    digest bytea not null,
    content bytea not null,
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    constraint referral_file_size check (size = octet_length(content)),
    constraint referral_file_digest check (digest = sha256(content)),
    -- The same file dropped twice is one file.
    constraint referral_file_once unique (referral, digest)
);

-- Such files are compressed by nature; trying again only costs time.
alter table referral_file alter column content set storage external;

create trigger referral_file_append_only before update or delete on referral_file
    for each row execute function refuse_to_rewrite();
create trigger referral_file_never_emptied before truncate on referral_file
    for each statement execute function refuse_to_rewrite();
