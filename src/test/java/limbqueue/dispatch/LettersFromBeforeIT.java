package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.testbed.TestDatabase;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A database that holds letters from before letters left by themselves. All people and places are invented. */
class LettersFromBeforeIT {

    @Test
    void somebodyLooksAtWhatWasNotSentAndWhatWasSentStaysSent() {
        var source = TestDatabase.empty().dataSource();
        Flyway.configure().dataSource(source).target("18").load().migrate();
        var jdbc = JdbcClient.create(source);
        for (var number = 1; number <= 2; number++) {
            jdbc.sql("""
                    insert into referral (reference, state, received, document, saved_by, saved_at, submitted_at)
                    values (:reference, 'QUEUED', date '2026-01-12', '{}', 'Wren Halloway', now(), now())""").param("reference", "LQ-2026-000" + number).update();
        }
        jdbc.sql("""
                insert into letter (referral, kind, reference, patient, recipient, channel, dated, written_at, parts, text)
                select id, 'RECEIVED', reference, 'Hesper Thornbury', 'Dr Ansel Quaife', 'Email ansel@millbeck.example',
                       received, now(), '{}', 'Dear Dr Quaife'
                from referral""").update();
        jdbc.sql("update letter set pdf = 'x', sent_at = now(), sent_by = 'Wren Halloway' where reference like '%2'")
                .update();

        Flyway.configure().dataSource(source).load().migrate();

        assertThat(jdbc.sql("""
                        select l.reference, o.channel, o.address, o.state, o.why
                        from outbox o join letter l on l.id = o.letter""").query().listOfRows())
                .singleElement()
                .satisfies(held -> assertThat(held)
                        .containsEntry("reference", "LQ-2026-0001")
                        .containsEntry("channel", "EMAIL")
                        .containsEntry("address", "ansel@millbeck.example")
                        .containsEntry("state", "HELD")
                        .hasEntrySatisfying(
                                "why", why -> assertThat(why.toString()).contains("mark it as sent, or send it")));
    }
}
