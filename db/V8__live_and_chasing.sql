-- Who hears what changed; and what is asked of others: records, reminders, telephone calls.

-- How often something of a referral has changed; 0 stands for what concerns every referral. Whoever keeps something worked
-- out beside a count knows by the count whether it still holds.
create table change_count (
    referral bigint primary key check (referral >= 0),
    changes bigint not null check (changes > 0)
);

-- Counts a change and tells whoever listens, with the number of the referral and nothing else. The argument is the column
-- that holds the number.
create function tell_change() returns trigger language plpgsql as $$
declare
    about bigint := 0;
begin
    if tg_argv[0] = 'id' then
        about := new.id;
    elsif tg_argv[0] = 'referral' then
        about := new.referral;
    end if;
    insert into change_count as c (referral, changes)
    values (about, 1)
    on conflict (referral) do update set changes = c.changes + 1;
    perform pg_notify('limbqueue_changed', about::text);
    return null;
end
$$;

-- How many days the practice gives others to answer, and how often it calls patients who wait; version by version.
create table chasing_days (
    version integer primary key check (version > 0),
    -- Days from a request, a second request and a third one to the day on which the answer is due.
    first_reply integer not null check (first_reply between 1 and 90),
    second_reply integer not null check (second_reply between 1 and 90),
    third_reply integer not null check (third_reply between 1 and 90),
    -- Days between two calls to a patient whose leg is threatened, by tier; null where none are made.
    call_within_5_days integer check (call_within_5_days between 1 and 90),
    call_within_14_days integer check (call_within_14_days between 1 and 90),
    call_within_6_weeks integer check (call_within_6_weeks between 1 and 90),
    call_within_18_weeks integer check (call_within_18_weeks between 1 and 90),
    -- From how many days before its target date a referral counts as about to be late.
    late_warning integer not null check (late_warning between 0 and 90),
    -- Null where the product brought it.
    account bigint references account,
    who text not null check (who ~ '\S'),
    at timestamptz not null default clock_timestamp(),
    reason text not null check (reason ~ '\S')
);

-- Common practice, no source.
insert into chasing_days (version, first_reply, second_reply, third_reply, call_within_5_days, call_within_14_days,
                          call_within_6_weeks, late_warning, who, reason)
values (1, 7, 4, 3, 1, 3, 7, 5, 'LimbQueue', 'The days that the product comes with.');

create trigger chasing_days_append_only before update or delete on chasing_days
    for each row execute function refuse_to_rewrite();
create trigger chasing_days_never_emptied before truncate on chasing_days
    for each statement execute function refuse_to_rewrite();

-- Records asked of another hospital.
create table records_request (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    version integer not null default 1 check (version > 0),
    hospital text not null check (hospital ~ '\S'),
    address text not null,
    -- Which examination or procedure, in the words of the letter.
    about text not null check (about ~ '\S'),
    -- The entry of the document that it belongs to, by its list and by what is known of it; its place may change.
    entry_list text check (entry_list in ('imaging', 'procedures')),
    entry_facts text,
    report boolean not null,
    images boolean not null,
    asked_on date not null,
    -- The day on which to ask again.
    due_on date not null,
    reminders integer not null default 0 check (reminders between 0 and 2),
    report_came_on date,
    images_came_on date,
    given_up_because text check (given_up_because ~ '\S'),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (referral, id),
    constraint records_request_for_something check (report or images),
    constraint records_request_entry check ((entry_list is null) = (entry_facts is null)),
    constraint records_request_due_later check (due_on >= asked_on),
    constraint records_request_came_what_was_asked
        check ((report or report_came_on is null) and (images or images_came_on is null)),
    constraint records_request_given_up_while_open
        check (given_up_because is null
               or (report and report_came_on is null) or (images and images_came_on is null))
);

create index records_request_of on records_request (referral);

create function guard_records_request() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'records request % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version + 1
            or (new.id, new.referral, new.hospital, new.address, new.about, new.entry_list, new.entry_facts, new.report,
                new.images, new.asked_on)
               is distinct from
               (old.id, old.referral, old.hospital, old.address, old.about, old.entry_list, old.entry_facts, old.report,
                old.images, old.asked_on)
            or new.reminders < old.reminders
            or (old.report_came_on is not null and new.report_came_on is distinct from old.report_came_on)
            or (old.images_came_on is not null and new.images_came_on is distinct from old.images_came_on)
            or old.given_up_because is not null then
        raise exception 'records request % keeps what was asked and what came', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger records_request_guarded before update or delete on records_request
    for each row execute function guard_records_request();
create trigger records_request_never_emptied before truncate on records_request
    for each statement execute function refuse_to_rewrite();

-- The letters of a request, as they were written. Only the printed page is added afterwards.
create table records_letter (
    id bigint generated always as identity primary key,
    request bigint not null references records_request,
    -- 1 for the request, 2 and 3 for the reminders.
    number integer not null check (number between 1 and 3),
    dated date not null,
    parts json not null check (json_typeof(parts) = 'object'),
    text text not null check (text ~ '\S'),
    pdf bytea check (length(pdf) > 0),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (request, number)
);

create function guard_records_letter() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'records letter % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if (new.id, new.request, new.number, new.dated, new.parts::text, new.text, new.account, new.author, new.at)
            is distinct from
       (old.id, old.request, old.number, old.dated, old.parts::text, old.text, old.account, old.author, old.at)
            or old.pdf is not null then
        raise exception 'records letter % stays as it was written', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger records_letter_guarded before update or delete on records_letter
    for each row execute function guard_records_letter();
create trigger records_letter_never_emptied before truncate on records_letter
    for each statement execute function refuse_to_rewrite();

-- Telephone calls about a referral.
create table phone_call (
    id bigint generated always as identity primary key,
    referral bigint not null references referral,
    kind text not null check (kind in ('SAFETY', 'RECORDS', 'INFORMATION', 'OTHER')),
    request bigint,
    -- How the patient is who was called because the leg is threatened.
    outcome text check (outcome in ('UNCHANGED', 'WORSE', 'NOT_REACHED')),
    called_on date not null,
    spoke_with text not null check (spoke_with ~ '\S'),
    said text not null,
    again_on date check (again_on >= called_on),
    account bigint not null references account,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    foreign key (referral, request) references records_request (referral, id),
    constraint phone_call_about_records check ((kind = 'RECORDS') = (request is not null)),
    constraint phone_call_safety_has_outcome check ((kind = 'SAFETY') = (outcome is not null)),
    constraint phone_call_says_something check (said ~ '\S' or outcome in ('UNCHANGED', 'NOT_REACHED'))
);

create index phone_call_about on phone_call (referral, id);

create trigger phone_call_append_only before update or delete on phone_call
    for each row execute function refuse_to_rewrite();
create trigger phone_call_never_emptied before truncate on phone_call
    for each statement execute function refuse_to_rewrite();

-- At the end of the transaction, when it waits for nothing else: else two of them could wait for each other's count.
create constraint trigger referral_told after insert or update on referral
    deferrable initially deferred for each row execute function tell_change('id');
create constraint trigger tracked_item_told after insert or update on tracked_item
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger procedure_booking_told after insert or update on procedure_booking
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger stent_confirmation_told after insert or update on stent_confirmation
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger readiness_override_told after insert on readiness_override
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger recorded_case_told after insert on recorded_case
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger records_request_told after insert or update on records_request
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger phone_call_told after insert on phone_call
    deferrable initially deferred for each row execute function tell_change('referral');
create constraint trigger covered_stent_told after insert or update on covered_stent
    deferrable initially deferred for each row execute function tell_change('everything');
create constraint trigger policy_version_told after insert on policy_version
    deferrable initially deferred for each row execute function tell_change('everything');
create constraint trigger chasing_days_told after insert on chasing_days
    deferrable initially deferred for each row execute function tell_change('everything');
