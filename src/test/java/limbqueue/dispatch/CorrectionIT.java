package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import limbqueue.access.ActingAs;
import limbqueue.dispatch.jdbc.OutboxStore;
import limbqueue.letter.CorrectionOutcome;
import limbqueue.letter.CorrectionOutcome.Corrected;
import limbqueue.letter.CorrectionOutcome.NotRight;
import limbqueue.letter.CorrectionOutcome.Overtaken;
import limbqueue.letter.CorrectionOutcome.Unchanged;
import limbqueue.letter.Letter;
import limbqueue.letter.LetterCorrection;
import limbqueue.letter.LetterCorrections;
import limbqueue.letter.Letters;
import limbqueue.letter.OutgoingLetters;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.TimelineEntry;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.triage.Tier;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

/** Letters are corrected by hand before they leave. All people and places are invented. */
@OnPostgres
class CorrectionIT {

    private static final String MORE = "\n\nPlease send us the images too:\n- of the left leg\n- of the right leg";

    @Autowired
    private LetterCorrections corrections;

    @Autowired
    private Dispatches dispatches;

    @Autowired
    private DaysPost post;

    @Autowired
    private OutboxStore store;

    @Autowired
    private OutgoingLetters outgoing;

    @Autowired
    private Destinations destinations;

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;
    private PostRoom room;

    @BeforeEach
    void open() {
        staff = new Staff(actingAs);
        room = new PostRoom(staff, referrals, letters).open();
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void aCorrectedLetterIsPrintedAndSentAsCorrectedAndBothTextsAreKept() throws Exception {
        var referral = room.byEmail("Dr Abe Linnet", "abe@millbeck.example");
        var letter = room.letter(referral);
        office(() -> letters.pdf(letter.id()));
        var opened = office(() -> corrections.open(letter.id()));
        assertThat(opened.version()).isEqualTo(1);
        assertThat(opened.standing()).singleElement().asString().startsWith("If the leg gets worse");

        assertThat(correct(letter, 1, opened.body() + MORE))
                .isInstanceOfSatisfying(
                        NotRight.class,
                        not -> assertThat(not.why()).first().asString().contains("Hold it first"));
        hold(letter);
        assertThat(correct(letter, 1, opened.body())).isEqualTo(new Unchanged());
        assertThat(correct(letter, 1, opened.body() + MORE)).isInstanceOf(Corrected.class);

        assertThat(text(letter))
                .contains("Please send us the images too: of the left leg of the right leg")
                .contains("If the leg gets worse");
        assertThat(office(() -> corrections.of(letter.id())))
                .singleElement()
                .returns(2, LetterCorrection::version)
                .returns("Wren Halloway", LetterCorrection::author)
                .returns(opened.body(), LetterCorrection::before)
                .returns(opened.body() + MORE, LetterCorrection::after);
        office(() -> released(letter));
        sendDue();
        var arrived = room.arrived("abe@millbeck.example");
        assertThat(arrived).hasSize(1);
        assertThat(outgoing.letter(letter.id()).text()).contains("  - of the right leg");
        assertThat(staff.as("coordinator", () -> referrals.timeline(referral.id())))
                .extracting(TimelineEntry::what)
                .contains("corrected the letter “received” by hand");
        assertThat(jdbc.sql("select words @@ to_tsquery('simple', 'images') from searchable where referral = :id")
                        .param("id", referral.id())
                        .query(Boolean.class)
                        .single())
                .as("found by its new words")
                .isTrue();

        assertThat(correct(letter, 2, "Once more."))
                .isInstanceOfSatisfying(
                        NotRight.class,
                        not -> assertThat(not.why()).first().asString().contains("has left"));
    }

    @Test
    void whoComesSecondIsToldAndLosesNothing() {
        var letter = held("Dr Bea Martin");
        var body = office(() -> corrections.open(letter.id())).body();
        assertThat(correct(letter, 1, body + "\n\nFirst.")).isInstanceOf(Corrected.class);

        assertThat(correct(letter, 1, body + "\n\nSecond.")).isInstanceOfSatisfying(Overtaken.class, overtaken -> {
            assertThat(overtaken.theirs().author()).isEqualTo("Wren Halloway");
            assertThat(overtaken.now().body()).endsWith("First.");
            assertThat(overtaken.now().version()).isEqualTo(2);
        });
        assertThat(correct(letter, 2, body + "\n\nFirst.\n\nSecond.")).isInstanceOf(Corrected.class);
        assertThat(office(() -> corrections.of(letter.id())))
                .extracting(LetterCorrection::version)
                .containsExactly(3, 2);
    }

    @Test
    void whatNoLetterSaysIsRefusedInWordsAndNothingIsChanged() {
        office(() ->
                referrals.enter(Arriving.REST_PAIN.replace("Zoë", "Juno").replace("Ångström-Łuczak", "Quillfeather")));
        var letter = held("Dr Cy Nightjar");
        var referral = letter.referralId();
        staff.as(
                "physician",
                () -> referrals.decide(
                        referral,
                        referrals.get(referral).version(),
                        new Decision.Change(
                                Tier.WITHIN_5_DAYS, Map.of(), "The daughter says that nobody ever gave him tablets.")));
        var body = office(() -> corrections.open(letter.id())).body();

        refused(letter, body + "\n\nAn undisclosed procedure was tried.", "says a suspicion");
        refused(letter, body + "\n\nAs with Juno Quillfeather.", "another patient");
        refused(letter, body + "\n\nCall Dr Imogen Tarrant.", "Dr Imogen Tarrant works here");
        refused(letter, body + "\n\nThe daughter says that nobody ever gave him any.", "kept for the record");
        refused(letter, " \n ", "would say nothing");
        refused(letter, body + "\n\n- an entry", "A list begins with a sentence");
        refused(letter, body + "\n\n{{patient}}", "Placeholders");
        refused(letter, body + "\n\n" + "word ".repeat(1300), "has room for 6000");
        assertThat(office(() -> corrections.open(letter.id())).version()).isEqualTo(1);
    }

    @Test
    void whatWasPrintedForThePostBeforeACorrectionIsNotRecordedAsPosted() {
        var letter = room.letter(
                room.referred("Dr Dot Oriole", "\"address\": \"1 High Street\\nMillbeck\", \"prefers\": \"post\""));
        var batch = office(post::waiting);
        hold(letter);
        var body = office(() -> corrections.open(letter.id())).body();
        assertThat(correct(letter, 1, body + "\n\nMore.")).isInstanceOf(Corrected.class);
        office(() -> released(letter));

        office(() -> post.posted(batch));

        assertThat(way(letter).state()).isEqualTo(DispatchState.TO_SEND);
    }

    @Test
    void aLetterThatWasTriedBeforeItsCorrectionIsANewMessage() {
        var letter = room.letter(room.byEmail("Dr Eve Pipit", "eve@millbeck.example"));
        for (var sql : List.of(
                "update outbox set state = 'SENDING', claimed_at = now(), attempts = 1, version = version + 1 where letter = :id",
                "update outbox set state = 'TO_SEND', claimed_at = null, why = 'broke off', version = version + 1 where letter = :id")) {
            jdbc.sql(sql).param("id", letter.id()).update();
        }
        hold(letter);
        office(() -> released(letter));

        assertThat(way(letter)).returns(2, Dispatch::round).returns(0, Dispatch::attempts);
    }

    @Test
    void onlyTheOfficeCorrectsAndTheDatabaseKeepsBothTexts() {
        var letter = held("Dr Flo Redstart");
        assertThatThrownBy(() -> staff.as("physician", () -> corrections.correct(letter.id(), 1, "Words.")))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("manager", () -> corrections.of(letter.id())))
                .isInstanceOf(AccessDeniedException.class);
        assertThat(correct(letter, 1, "Other words.")).isInstanceOf(Corrected.class);
        for (var sql : List.of(
                "update letter set text = 'x' where id = :id",
                "update letter set text = 'x', version = version + 1 where id = :id",
                "update letter_correction set text = 'x' where letter = :id",
                "delete from letter_correction where letter = :id")) {
            assertThatThrownBy(() -> jdbc.sql(sql).param("id", letter.id()).update())
                    .as(sql)
                    .isInstanceOf(DataIntegrityViolationException.class);
        }
    }

    private void refused(Letter letter, String body, String why) {
        assertThat(correct(letter, 1, body))
                .isInstanceOfSatisfying(
                        NotRight.class, not -> assertThat(not.why()).anyMatch(words -> words.contains(why)));
    }

    private CorrectionOutcome correct(Letter letter, int version, String body) {
        return office(() -> corrections.correct(letter.id(), version, body));
    }

    private Letter held(String referrer) {
        var letter = room.letter(room.byEmail(referrer, "somebody@millbeck.example"));
        hold(letter);
        return letter;
    }

    private void hold(Letter letter) {
        office(() -> {
            dispatches.hold(way(letter), "To be corrected.");
            return true;
        });
    }

    private boolean released(Letter letter) {
        dispatches.release(way(letter));
        return true;
    }

    private String text(Letter letter) throws Exception {
        try (var document = Loader.loadPDF(office(() -> letters.pdf(letter.id())))) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
        }
    }

    private void sendDue() {
        room.clock.forward(Duration.ofSeconds(1));
        room.sending(room.server(), store, outgoing, destinations, transaction).sendDue();
    }

    private Dispatch way(Letter letter) {
        return store.of(letter.id()).getFirst();
    }

    private <T> T office(Callable<T> act) {
        return staff.as("coordinator", act);
    }
}
