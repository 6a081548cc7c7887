package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import limbqueue.access.ActingAs;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome.Decided;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome.Submitted;
import limbqueue.testbed.OnPostgres;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

@OnPostgres
class LettersIT {

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TransactionTemplate transaction;

    @Test
    void everyStepOfAReferralWritesItsLetter() {
        var queued = queued();
        var asked = decided(queued, new Decision.AskForInformation("Which medicines does she take?"));
        var again = office(() -> ((Submitted) referrals.submit(asked.id(), asked.version())).referral());
        decided(again, new Decision.Approve());

        assertThat(office(() -> letters.about(queued.id())))
                .extracting(Letter::kind)
                .containsExactly(LetterKind.TRIAGED, LetterKind.INFORMATION_NEEDED, LetterKind.RECEIVED);
        assertThat(office(() -> letters.about(queued.id())).getFirst().text())
                .contains("Zoë Ångström-Łuczak")
                .contains("decided by Dr Imogen Tarrant")
                .contains("left leg: Rutherford category 4 (ischaemic rest pain), Fontaine stage III");
    }

    @Test
    void aStepThatIsUndoneLeavesNoLetter() {
        var entered = office(() -> referrals.enter(Arriving.REST_PAIN));

        office(() -> transaction.execute(status -> {
            var outcome = referrals.submit(entered.id(), entered.version());
            status.setRollbackOnly();
            return outcome;
        }));

        assertThat(office(() -> letters.about(entered.id()))).isEmpty();
    }

    @Test
    void theReturnedLetterGivesTheReason() {
        var queued = queued();
        decided(queued, new Decision.ReturnToReferrer("The complaints come from the spine."));

        var letter = office(() -> letters.about(queued.id())).getFirst();
        assertThat(letter.kind()).isEqualTo(LetterKind.RETURNED);
        assertThat(letter.text()).contains("The complaints come from the spine.");
    }

    @Test
    void aLetterIsPrintedOnceAndStaysTheSame() throws IOException {
        var letter = office(() -> letters.about(queued().id())).getFirst();

        var pdf = office(() -> letters.pdf(letter.id()));

        assertThat(office(() -> letters.pdf(letter.id()))).isEqualTo(pdf);
        try (var document = Loader.loadPDF(pdf)) {
            assertThat(new PDFTextStripper().getText(document)).contains("Zoë Ångström-Łuczak");
        }
    }

    @Test
    void aLetterIsMarkedAsSentOnceWithItsPage() {
        var letter = office(() -> letters.about(queued().id())).getFirst();

        var sent = office(() -> letters.markSent(letter.id()));

        assertThat(sent.sentBy()).contains("Wren Halloway");
        assertThat(office(() -> letters.markSent(letter.id()))).isEqualTo(sent);
        assertThat(jdbc.sql("select pdf is not null from letter where id = :id")
                        .param("id", letter.id())
                        .query(Boolean.class)
                        .single())
                .isTrue();
    }

    @Test
    void unsentLettersComeFirstOldestFirstThenTheSentOnesNewestFirst() {
        var one = office(() -> letters.about(queued().id())).getFirst();
        var two = office(() -> letters.about(queued().id())).getFirst();
        var three = office(() -> letters.about(queued().id())).getFirst();
        var four = office(() -> letters.about(queued().id())).getFirst();
        office(() -> letters.markSent(one.id()));
        office(() -> letters.markSent(three.id()));

        assertThat(office(letters::all))
                .extracting(Letter::id)
                .filteredOn(List.of(one.id(), two.id(), three.id(), four.id())::contains)
                .containsExactly(two.id(), four.id(), three.id(), one.id());
    }

    @Test
    void aPhysicianReadsLettersButDoesNotSendThem() {
        var letter = office(() -> letters.about(queued().id())).getFirst();

        assertThat(as("physician", letters::all)).contains(letter);
        assertThatThrownBy(() -> as("physician", () -> letters.markSent(letter.id())))
                .isInstanceOf(AccessDeniedException.class);
        for (var act : List.<Supplier<?>>of(
                letters::all, () -> letters.about(letter.referralId()), () -> letters.pdf(letter.id()))) {
            assertThatThrownBy(() -> as("manager", act)).isInstanceOf(AccessDeniedException.class);
        }
    }

    @Test
    void theDatabaseKeepsALetterAsItWasWrittenPrintedAndSent() {
        var letter = office(() -> letters.about(queued().id())).getFirst();
        for (var sql : List.of(
                "update letter set text = 'other' where id = :id",
                "update letter set parts = '{}' where id = :id",
                "update letter set recipient = 'other' where id = :id",
                "update letter set sent_at = now(), sent_by = 'x' where id = :id and pdf is null",
                "delete from letter where id = :id")) {
            assertThatThrownBy(() -> jdbc.sql(sql).param("id", letter.id()).update())
                    .as(sql)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
        office(() -> letters.markSent(letter.id()));
        for (var sql : List.of(
                "update letter set sent_at = now() where id = :id",
                "update letter set sent_at = null, sent_by = null where id = :id",
                "update letter set pdf = 'x' where id = :id",
                "update letter set pdf = null where id = :id")) {
            assertThatThrownBy(() -> jdbc.sql(sql).param("id", letter.id()).update())
                    .as(sql)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    @Test
    void aLetterThatIsNotThereIsSaidToBeMissing() {
        assertThatThrownBy(() -> office(() -> letters.pdf(-1))).isInstanceOf(LetterNotFoundException.class);
        assertThatThrownBy(() -> office(() -> letters.markSent(-1))).isInstanceOf(LetterNotFoundException.class);
    }

    private Referral queued() {
        return office(() -> {
            var entered = referrals.enter(Arriving.REST_PAIN);
            return ((Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }

    private Referral decided(Referral queued, Decision decision) {
        return as("physician", () -> ((Decided) referrals.decide(queued.id(), queued.version(), decision)).referral());
    }

    private <T> T office(Supplier<T> work) {
        return as("coordinator", work);
    }

    private <T> T as(String person, Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> result.set(work.get()));
        return result.get();
    }
}
