-- What the practice sets for itself. One row, always there.

create table practice (
    only_row boolean primary key default true check (only_row),
    name text not null check (length(btrim(name)) between 1 and 120),
    address_lines text[] not null check (cardinality(address_lines) <= 6),
    phone text not null check (length(phone) <= 60),
    fax text not null check (length(fax) <= 60),
    email text not null check (length(email) <= 120),
    urgent_phone text not null check (length(urgent_phone) <= 60),
    signatory text not null check (length(signatory) <= 120),
    version integer not null default 0 check (version >= 0)
);

insert into practice (name, address_lines, phone, fax, email, urgent_phone, signatory)
values ('The practice', '{}', '', '', '', '', '');
