package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.Callable;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.letter.WordingOutcome.NotRight;
import limbqueue.letter.WordingOutcome.Overtaken;
import limbqueue.letter.WordingOutcome.Published;
import limbqueue.letter.WordingOutcome.Unchanged;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** The words of letters from the first change back to the shipped ones, on a database. */
@OnPostgres
class LetterWordsIT {

    private static final String OWN = """
            Subject: We have your referral

            Many thanks for sending us {{patient}}; it came on {{received}}.
            """;

    @Autowired
    private LetterWords words;

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;

    @BeforeEach
    void staff() {
        staff = new Staff(actingAs);
    }

    @Test
    void publishedWordsMakeTheNextLetterAndTheShippedOnesComeBack() {
        var before = letter();
        var shipped = office(() -> words.now(LetterKind.RECEIVED, "en-GB"));
        assertThat(shipped.shipped()).isTrue();
        assertThat(shipped.version()).isZero();

        var published = (Published) office(() -> words.publish(LetterKind.RECEIVED, "en-GB", 0, OWN));
        assertThat(published.now().version()).isEqualTo(1);
        assertThat(published.now().author()).contains("Wren Halloway");
        var own = letter();
        assertThat(own)
                .contains("We have your referral")
                .contains("Many thanks for sending us Zoë Ångström-Łuczak; it came on 12 January 2026.")
                .contains("must not wait for the queue");
        assertThat(before).contains("Your referral has reached us").doesNotContain("Many thanks");

        assertThat(office(() -> words.publish(LetterKind.RECEIVED, "en-GB", 1, OWN)))
                .isEqualTo(new Unchanged());
        assertThat(office(() -> words.publish(LetterKind.RECEIVED, "en-GB", 0, OWN + "More.\n")))
                .isInstanceOfSatisfying(
                        Overtaken.class,
                        other -> assertThat(other.theirs().text()).isEqualTo(OWN));
        assertThat(staff.as("manager", () -> words.backToShipped(LetterKind.RECEIVED, "en-GB", 1)))
                .isInstanceOf(Published.class);
        assertThat(office(() -> words.backToShipped(LetterKind.RECEIVED, "en-GB", 2)))
                .isEqualTo(new Unchanged());
        assertThat(letter()).contains("Your referral has reached us").doesNotContain("Many thanks");
        assertThat(office(() -> words.history(LetterKind.RECEIVED, "en-GB")))
                .extracting(WordingVersion::version)
                .containsExactly(2, 1);
        assertThat(office(() -> words.history(LetterKind.TRIAGED, "en-GB"))).isEmpty();
    }

    @Test
    void wordsThatCannotStandAreNeitherPublishedNorPreviewed() {
        var wrong = "Subject: x\n\nHello {{patient}}, on {{recieved}}.\n";

        assertThat(office(() -> words.publish(LetterKind.RETURNED, "es", 0, wrong)))
                .isInstanceOfSatisfying(
                        NotRight.class,
                        not -> assertThat(not.problems())
                                .extracting(problem -> problem.line() + " " + problem.what())
                                .anyMatch(told -> told.startsWith("3 This letter knows no {{recieved}}")));
        assertThat(office(() -> words.history(LetterKind.RETURNED, "es"))).isEmpty();
        assertThat(office(() -> words.preview(LetterKind.RETURNED, "es", wrong)))
                .isEmpty();
    }

    @Test
    void everyShippedLetterCanBePreviewedOnARealReferralAndOnNone() {
        var about = queued();
        for (var language : office(words::languages)) {
            for (var kind : LetterKind.values()) {
                var text = words(kind, language.tag());
                assertThat(office(() -> words.check(kind, language.tag(), text)))
                        .isEmpty();
                assertThat(office(() -> words.preview(kind, language.tag(), text, about.id())))
                        .as("%s %s", kind, language)
                        .hasValueSatisfying(parts -> assertThat(parts.asText()).contains("Ångström"));
                assertThat(staff.as("manager", () -> words.preview(kind, language.tag(), text)))
                        .hasValueSatisfying(parts -> assertThat(parts.asText()).doesNotContain("{"));
            }
        }
        assertThat(office(() -> letters.about(about.id())))
                .as("nothing of it is kept")
                .hasSize(1);
    }

    @Test
    void aManagerSeesNoReferralAndAPhysicianDoesNotEditLetters() {
        var about = queued();
        assertThatThrownBy(
                        () -> staff.as("manager", () -> words.preview(LetterKind.RECEIVED, "en-GB", OWN, about.id())))
                .isInstanceOf(AccessDeniedException.class);
        for (Callable<?> act : List.<Callable<?>>of(
                words::languages,
                words::language,
                () -> words.now(LetterKind.RECEIVED, "en-GB"),
                () -> words.shipped(LetterKind.RECEIVED, "en-GB"),
                () -> words.history(LetterKind.RECEIVED, "en-GB"),
                () -> words.check(LetterKind.RECEIVED, "en-GB", OWN),
                () -> words.preview(LetterKind.RECEIVED, "en-GB", OWN),
                () -> words.publish(LetterKind.RECEIVED, "en-GB", 0, OWN),
                () -> words.backToShipped(LetterKind.RECEIVED, "en-GB", 0))) {
            assertThatThrownBy(() -> staff.as("physician", act)).isInstanceOf(AccessDeniedException.class);
        }
    }

    @Test
    void theUsualLanguageIsChosenAndKept() {
        assertThat(office(words::language)).isEqualTo("en-GB");
        assertThatThrownBy(() -> office(() -> {
                    words.chooseLanguage("xx");
                    return true;
                }))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("No letter is written in this language");
        choose("es");
        try {
            assertThat(letter()).contains("Hemos recibido su derivación");
        } finally {
            choose("en-GB");
        }
        assertThat(letter()).contains("Your referral has reached us");
    }

    @Test
    void whatWasPublishedIsNeverRewritten() {
        office(() -> words.publish(LetterKind.DONE, "en-GB", 0, "Subject: x\n\n{{patient}}, {{day}}: {{outcome}}\n"));
        for (var sql : List.of(
                "update letter_wording set text = 'x'", "delete from letter_wording", "truncate letter_wording")) {
            assertThatThrownBy(() -> jdbc.sql(sql).update()).as(sql).isInstanceOf(DataAccessException.class);
        }
    }

    /** Words that were published before a placeholder went must not stop a decision. */
    @Test
    void publishedWordsThatCannotBeReadAnyMoreGiveWayToTheShippedOnes() {
        jdbc.sql("""
                insert into letter_wording (kind, language, version, text, account, author, at)
                select 'RECEIVED', 'es', 1,
                       'Subject: old\n\n{{gone}}', id, 'Somebody', now()
                from account limit 1
                """).update();
        choose("es");
        try {
            assertThat(letter()).contains("Hemos recibido su derivación");
        } finally {
            choose("en-GB");
        }
    }

    private void choose(String language) {
        office(() -> {
            words.chooseLanguage(language);
            return true;
        });
    }

    private String words(LetterKind kind, String language) {
        return office(() -> words.shipped(kind, language));
    }

    /** The letter that a referral gets on its arrival. */
    private String letter() {
        return office(() -> letters.about(queued().id())).getFirst().text();
    }

    private Referral queued() {
        return office(() -> {
            var entered = referrals.enter(Arriving.REST_PAIN);
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }

    private <T> T office(Callable<T> work) {
        return staff.as("coordinator", work);
    }
}
