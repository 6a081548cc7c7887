-- Entries of the directory whose names are much alike are found without comparing each with each.
create index directory_entry_alike on directory_entry using gin (lower(name) gin_trgm_ops) where merged_into is null;
