package limbqueue.governance;

import java.util.List;
import org.springframework.jdbc.core.ConnectionCallback;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;

/**
 * Any number of invented referrals with a decision, put straight into the database: received during the last 500 days, most of
 * them done or sent to hospital since, some overruled, some flagged. The same number gives the same referrals.
 */
public final class ManyCourses {

    private static final List<String> QUIET = List.of("referral", "decision", "recorded_case", "procedure_booking");

    private final JdbcTemplate jdbc;

    private ManyCourses(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    public static void add(JdbcTemplate jdbc, int count) {
        jdbc.execute((ConnectionCallback<Boolean>) connection -> {
            new ManyCourses(new JdbcTemplate(new SingleConnectionDataSource(connection, true))).add(count);
            return true;
        });
    }

    /** Leaves out what happens beside when a referral is saved one by one: it is not what is measured or looked at. */
    private void add(int count) {
        QUIET.forEach(table -> jdbc.execute("alter table " + table + " disable trigger user"));
        jdbc.execute("alter table decision enable trigger decision_counted");
        jdbc.execute("insert into rule_book (id, files) values ('0123456789abcdef', '{}') on conflict do nothing");
        jdbc.execute("drop table if exists invented");
        jdbc.execute(
                "create or replace function pg_temp.chance(n bigint, about text, most integer) returns integer language sql return"
                        + " (hashtext(about || n) & 2147483647) % most");
        jdbc.execute("""
                create temporary table invented as
                select n, received, tier, allowed, overruled, pg_temp.chance(n, 'person', 3) = 0 as second,
                       case tier when 'SAME_DAY' then 0 when 'WITHIN_5_DAYS' then 3 + pg_temp.chance(n, 'days', 5)
                                 when 'WITHIN_14_DAYS' then 5 + pg_temp.chance(n, 'days', 16)
                                 when 'WITHIN_6_WEEKS' then 15 + pg_temp.chance(n, 'days', 40)
                                 else 30 + pg_temp.chance(n, 'days', 110) end as days
                from (
                    select n, current_date - 3 - pg_temp.chance(n, 'received', 500) as received,
                           (array['SAME_DAY', 'WITHIN_5_DAYS', 'WITHIN_14_DAYS', 'WITHIN_14_DAYS', 'WITHIN_6_WEEKS', 'WITHIN_6_WEEKS',
                                  'WITHIN_18_WEEKS', 'WITHIN_18_WEEKS', 'ADVICE_ONLY'])[1 + pg_temp.chance(n, 'tier', 9)] as tier,
                           pg_temp.chance(n, 'overruled', 8) = 0 as overruled
                    from generate_series(1, %d) as n
                ) as drawn
                cross join lateral (select case tier when 'SAME_DAY' then 0 when 'WITHIN_5_DAYS' then 5 when 'WITHIN_14_DAYS' then 14
                                                     when 'WITHIN_6_WEEKS' then 42 when 'WITHIN_18_WEEKS' then 126 end) as given (allowed)
                """.formatted(count));
        jdbc.execute("""
                insert into referral (reference, state, received, document, saved_by, saved_at, submitted_at)
                select 'C-' || n, 'QUEUED', received,
                       json_build_object(
                           'received', received,
                           'patient', json_build_object('given', 'Perpetua', 'family', 'Wetherell',
                               'born', received - 15000 - pg_temp.chance(n, 'born', 18000),
                               'sex', case when pg_temp.chance(n, 'sex', 60) = 0 then 'other'
                                           when pg_temp.chance(n, 'sex', 5) < 2 then 'female' else 'male' end),
                           'referrer', json_build_object('name', 'Dr ' || (array['Farrow', 'Quill', 'Lark', 'Denholm', 'Marsh', 'Okoro',
                               'Pell', 'Stroud', 'Vane', 'Yarrow', 'Birch', 'Crane'])[1 + least(pg_temp.chance(n, 'referrer', 12),
                               pg_temp.chance(n, 'other', 14))]),
                           'asked', json_build_object('expedite', pg_temp.chance(n, 'haste', 4) = 0)),
                       'Wren Halloway', received + time '09:00', received + time '10:00'
                from invented
                """);
        jdbc.execute("""
                insert into decision (referral, version, kind, account, author, at, policy, rule_book, as_of, document, proposal,
                                      proposed_tier, tier, target_date, left_category, reason)
                select r.id, 1,
                       case when i.tier = 'SAME_DAY' then 'SENT_TO_HOSPITAL' when overruled then 'CHANGED' else 'APPROVED' end,
                       a.id, case when second then 'Dr Ansel Quillfeather' else a.display_name end,
                       i.received + 1 + time '12:30', 'standard-1', '0123456789abcdef', i.received + 1, r.document,
                       json_build_object(
                           'urgency', json_build_object('waitingSince', i.received - case when n % 20 = 0 then 9 else 0 end),
                           'reasons', (select json_agg(json_build_object('rule', rule))
                                       from unnest(array['fontaine-1954', 'urgency-rest-pain', 'urgency-tissue-loss', 'wifi-stage',
                                                         'urgency-claudication', 'clti-present']) with ordinality as spoke (rule, at)
                                       where pg_temp.chance(n, rule, 3) > 0 or at = 1),
                           'redFlags', (select coalesce(json_agg(json_build_object('code', flag)), '[]')
                                        from unnest(array['kidney-risk', 'only-leg', 'contrast-allergy', 'anticoagulated'])
                                            with ordinality as raised (flag, at)
                                        where pg_temp.chance(n, flag, 3 + at::integer * 2) = 0)),
                       case when not overruled then i.tier when i.tier = 'SAME_DAY' then 'WITHIN_5_DAYS'
                            when i.tier = 'WITHIN_5_DAYS' then 'WITHIN_14_DAYS' when i.tier = 'WITHIN_14_DAYS' then 'WITHIN_6_WEEKS'
                            else i.tier end,
                       i.tier,
                       case when i.tier = 'SAME_DAY' then i.received + 1 else i.received + allowed end,
                       case when overruled and i.tier <> 'SAME_DAY' then 'CHRONIC_4' end,
                       case when i.tier = 'SAME_DAY' then 'The registrar on call, by telephone.'
                            when overruled then 'Perpetua Wetherell walks less than the letter says.' else '' end
                from invented i join referral r on r.reference = 'C-' || n
                join account a on a.sign_in_name = case when second then 'manager' else 'physician' end
                """);
        jdbc.execute("""
                update referral r
                set version = 2, decision = d.id,
                    state = case d.kind when 'SENT_TO_HOSPITAL' then 'SENT_TO_HOSPITAL' else 'APPROVED' end
                from decision d where d.referral = r.id and r.reference like 'C-%'
                """);
        jdbc.execute("""
                insert into procedure_booking (referral, starts, room, ready_at, ready_by, account, author, at)
                select r.id, received + days + time '08:30', 'Room 2', received + days + time '08:20', 'Wren Halloway',
                       r.account, 'Wren Halloway', received + days + time '08:20'
                from invented i
                join (select r.id, r.reference, d.account from referral r join decision d on d.id = r.decision) as r
                    on r.reference = 'C-' || n
                where tier not in ('SAME_DAY', 'ADVICE_ONLY') and received + days < current_date
                """);
        jdbc.execute("""
                insert into recorded_case (referral, minutes, access, outcome, note, account, author, at)
                select b.referral, 60, 'right groin',
                       (array['AS_PLANNED', 'AS_PLANNED', 'AS_PLANNED', 'AS_PLANNED', 'AS_PLANNED', 'OTHER_ACCESS', 'FAILED',
                              'COMPLICATION'])[1 + pg_temp.chance(b.referral, 'outcome', 8)],
                       'As invented.', b.account, 'Wren Halloway', b.ready_at + interval '2 hours'
                from procedure_booking b join referral r on r.id = b.referral and r.reference like 'C-%'
                """);
        QUIET.forEach(table -> jdbc.execute("alter table " + table + " enable trigger user"));
        jdbc.execute("analyze decision_fact");
        jdbc.execute("analyze referral");
    }
}
