package limbqueue.letter.jdbc;

import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads what no letter about a referral may say. */
@Repository
public class ConfidentialQuery {

    private final JdbcClient jdbc;

    ConfidentialQuery(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** What people of the practice noted about a referral for the record. */
    public List<String> notes(long referral) {
        return jdbc.sql("""
                select words
                from (
                    select reason from decision where referral = :referral and kind in ('APPROVED', 'CHANGED')
                    union
                    select reason from second_look where referral = :referral
                    union
                    select a.words
                    from second_look_answer a join second_look l on l.id = a.second_look
                    where l.referral = :referral
                    union
                    select reason from readiness_override where referral = :referral
                    union
                    select note from recorded_case where referral = :referral
                    union
                    select said from phone_call where referral = :referral
                ) note (words)
                where words ~ '\\S'
                """)
                .param("referral", referral)
                .query((row, number) -> row.getString(1))
                .list();
    }

    /** The names of those who work here. */
    public List<String> staff() {
        return jdbc.sql("""
                select display_name from account
                union
                select operator from practice_session
                """).query((row, number) -> row.getString(1)).list();
    }

    /** The names of patients of other referrals that stand in {@code text}, folded as the search does. */
    public List<String> otherPatients(long referral, String text) {
        return jdbc.sql("""
                select distinct other.name
                from searchable other
                where other.referral <> :referral and other.name like '% %'
                    and other.name is distinct from (select own.name from searchable own where own.referral = :referral)
                    and position(' ' || other.name || ' ' in ' ' || folded(:text) || ' ') > 0
                order by other.name
                """)
                .param("referral", referral)
                .param("text", text)
                .query((row, number) -> row.getString(1))
                .list();
    }
}
