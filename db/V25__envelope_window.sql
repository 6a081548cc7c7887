-- The window of the envelopes that letters are posted in: it says where the address stands, and on which paper.
alter table practice
    add column envelope_window text not null default 'DIN_5008_B'
        check (envelope_window in ('DIN_5008_B', 'US_NO_10'));
