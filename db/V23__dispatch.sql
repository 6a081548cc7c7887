-- Letters leave: one record a letter and channel, and each step of it.

create table outbox (
    id bigint generated always as identity primary key,
    letter bigint not null references letter,
    channel text not null check (channel in ('EMAIL', 'FAX', 'POST')),
    version integer not null default 1 check (version > 0),
    -- Names the message beyond this installation; with the round it makes the Message-ID, and says nothing of the letter.
    token uuid not null unique default gen_random_uuid(),
    -- An e-mail address, a fax number, or the lines of an address; empty where none is known.
    address text not null,
    state text not null
        check (state in ('TO_SEND', 'SENDING', 'SENT', 'FAILED', 'BOUNCED', 'HELD', 'WITHDRAWN')),
    -- Why it is held, was not taken, or came back, in words for the office.
    why text not null default '',
    -- A letter about a decision waits until the decision cannot be taken back any more.
    leaves_from timestamptz not null,
    -- When it is tried next.
    due_at timestamptz not null,
    -- Counts the times that a person has had it sent. All attempts of a round are the same message.
    round integer not null default 1 check (round > 0),
    attempts integer not null default 0 check (attempts >= 0),
    claimed_at timestamptz,
    author text not null check (author ~ '\S'),
    at timestamptz not null,
    unique (letter, channel),
    constraint outbox_claimed_while_sending check ((state = 'SENDING') = (claimed_at is not null)),
    constraint outbox_waits_for_the_decision check (due_at >= leaves_from and claimed_at >= leaves_from),
    constraint outbox_post_is_carried check (channel <> 'POST' or state not in ('SENDING', 'BOUNCED')),
    constraint outbox_says_why check (state not in ('FAILED', 'BOUNCED', 'HELD') or why ~ '\S'),
    constraint outbox_goes_somewhere check (address ~ '\S' or state in ('HELD', 'SENT', 'WITHDRAWN'))
);

create index outbox_due on outbox (due_at) where state in ('TO_SEND', 'SENDING');

create function guard_outbox() returns trigger language plpgsql as $$
begin
    if tg_op = 'DELETE' then
        raise exception 'outbox record % is kept', old.id using errcode = 'integrity_constraint_violation';
    end if;
    if new.version <> old.version + 1
            or (new.id, new.letter, new.channel, new.token, new.leaves_from)
               is distinct from (old.id, old.letter, old.channel, old.token, old.leaves_from)
            or new.round not in (old.round, old.round + 1)
            or (new.round = old.round and new.attempts < old.attempts) then
        raise exception 'outbox record % moves one version at a time and stays the same message', old.id
            using errcode = 'integrity_constraint_violation';
    end if;
    if (old.state = 'WITHDRAWN' and new.round = old.round)
            or (old.state in ('SENT', 'BOUNCED') and new.state = 'TO_SEND' and new.round = old.round)
            or (new.state = 'SENDING' and old.state not in ('TO_SEND', 'SENDING'))
            or (new.state = 'BOUNCED' and old.state <> 'SENT')
            or (old.state = 'SENDING' and new.state not in ('SENDING', 'SENT', 'TO_SEND', 'FAILED', 'HELD'))
            or (new.state in ('TO_SEND', 'SENDING')
                and exists (select from letter where id = new.letter and withdrawn_at is not null)) then
        raise exception 'outbox record % cannot go from % to %', old.id, old.state, new.state
            using errcode = 'integrity_constraint_violation';
    end if;
    return new;
end
$$;

create trigger outbox_guarded before update or delete on outbox
    for each row execute function guard_outbox();
create trigger outbox_never_emptied before truncate on outbox
    for each statement execute function refuse_to_rewrite();

-- Every step of a record.
create table outbox_step (
    id bigint generated always as identity primary key,
    outbox bigint not null references outbox,
    version integer not null check (version > 0),
    letter bigint not null references letter,
    channel text not null,
    address text not null,
    state text not null,
    why text not null,
    round integer not null,
    attempts integer not null,
    author text not null,
    at timestamptz not null,
    unique (outbox, version)
);

create index outbox_step_of on outbox_step (letter);

create function keep_outbox_step() returns trigger language plpgsql as $$
begin
    insert into outbox_step (outbox, version, letter, channel, address, state, why, round, attempts, author, at)
    values (new.id, new.version, new.letter, new.channel, new.address, new.state, new.why, new.round, new.attempts,
            new.author, new.at);
    return null;
end
$$;

create trigger outbox_kept after insert or update on outbox
    for each row execute function keep_outbox_step();
create trigger outbox_step_append_only before update or delete on outbox_step
    for each row execute function refuse_to_rewrite();
create trigger outbox_step_never_emptied before truncate on outbox_step
    for each statement execute function refuse_to_rewrite();

-- Tells whoever listens and counts nothing: where a letter is changes no work on the referral.
create function tell_outbox() returns trigger language plpgsql as $$
declare
    about bigint;
begin
    select referral into about from letter where id = new.letter;
    perform pg_notify('limbqueue_changed', about::text);
    return null;
end
$$;

create trigger outbox_told after insert or update on outbox
    for each row execute function tell_outbox();

-- A letter that somebody has sent by hand, or whose decision was taken back, is not sent again from here. Whatever marks it
-- does so under the lock of its records, so it is either on its way already or never leaves.
create function settle_outbox() returns trigger language plpgsql as $$
begin
    if new.sent_at is not distinct from old.sent_at and new.withdrawn_at is not distinct from old.withdrawn_at then
        return null;
    end if;
    perform 1 from outbox where letter = new.id order by id for update;
    if exists (select from outbox where letter = new.id and state = 'SENDING') then
        raise exception 'letter % is being sent at this moment', new.id
            using errcode = 'integrity_constraint_violation';
    end if;
    if new.withdrawn_at is not null then
        update outbox
        set state = 'WITHDRAWN', version = version + 1, why = '', author = 'LimbQueue', at = new.withdrawn_at
        where letter = new.id and state <> 'WITHDRAWN';
    else
        update outbox
        set state = 'SENT', version = version + 1, why = '', author = new.sent_by, at = new.sent_at
        where letter = new.id and state in ('TO_SEND', 'HELD', 'FAILED');
    end if;
    return null;
end
$$;

create trigger letter_settles_outbox after update on letter
    for each row execute function settle_outbox();

-- Letters that were written before this was built, and not sent: somebody looks at each before it leaves.
insert into outbox (letter, channel, address, state, why, leaves_from, due_at, author, at)
select id,
    case when channel like 'Email%' then 'EMAIL' when channel like 'Fax%' then 'FAX' else 'POST' end,
    case when channel like 'Email%' then btrim(substr(channel, 6)) when channel like 'Fax%' then btrim(substr(channel, 4))
        else recipient end,
    'HELD', 'Written before letters left from here. See whether it has gone already: mark it as sent, or send it.',
    case when decision is null then written_at else written_at + interval '10 minutes' end,
    case when decision is null then written_at else written_at + interval '10 minutes' end,
    'LimbQueue', now()
from letter
where sent_at is null and withdrawn_at is null;

-- Who in a cluster looks through the outbox, and when next: the table of db-scheduler.
create table scheduled_tasks (
    task_name text not null,
    task_instance text not null,
    task_data bytea,
    execution_time timestamptz not null,
    picked boolean not null,
    picked_by text,
    last_success timestamptz,
    last_failure timestamptz,
    consecutive_failures integer,
    last_heartbeat timestamptz,
    version bigint not null,
    priority smallint,
    primary key (task_name, task_instance)
);

create index scheduled_tasks_due on scheduled_tasks (execution_time);
create index scheduled_tasks_heartbeat on scheduled_tasks (last_heartbeat);
