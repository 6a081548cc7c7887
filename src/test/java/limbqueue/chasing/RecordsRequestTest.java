package limbqueue.chasing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.chasing.RecordsRequest.Next.Step;
import limbqueue.document.Draft;
import limbqueue.letter.LetterPage;
import limbqueue.letter.Parts;
import limbqueue.practice.Practice;
import limbqueue.print.EnvelopeWindow;
import limbqueue.testbed.AccessiblePdf;
import limbqueue.testbed.PrintedPage;
import limbqueue.testbed.WindowEnvelope;
import limbqueue.triage.ReferralDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is asked of another hospital, and in what words. All people and places in it are invented. */
class RecordsRequestTest {

    private static final LocalDate ASKED = LocalDate.of(2026, 3, 2);
    private static final LocalDate DUE = LocalDate.of(2026, 3, 9);
    private static final ReferralDocument DOCUMENT = document("""
            {"patient": {"given": "Orla", "family": "Penhallow", "born": "1949-07-21", "phone": "01632 960111",
                         "address": "3 Mill Lane"},
             "legs": {"left": {"wound": {"gangrene": "digits"}}},
             "imaging": [{"kind": "duplex", "side": "left", "date": "2026-01-04", "where": "Marrow Point General",
                          "reportHeld": true, "imagesHeld": true}],
             "procedures": [{"kind": "angiogram", "side": "left", "date": "2026-01-20", "where": "Marrow Point General",
                             "intent": "diagnostic", "reportHeld": false},
                            {"kind": "bypass", "where": "St Brannoc's Infirmary", "reportHeld": true}]}""");

    @ParameterizedTest
    @CsvSource({"0,SECOND_REQUEST", "1,THIRD_REQUEST", "2,TELEPHONE"})
    void aReminderFollowsTheDayOnWhichTheAnswerWasDue(int reminders, Step step) {
        assertThat(request(reminders, Optional.empty(), Optional.empty(), Optional.empty())
                        .next())
                .contains(new RecordsRequest.Next(step, DUE));
    }

    @Test
    void nothingIsDoneOnceEverythingCameOrIsGivenUp() {
        assertThat(request(0, Optional.of(DUE), Optional.of(DUE), Optional.empty())
                        .next())
                .isEmpty();
        assertThat(request(0, Optional.of(DUE), Optional.empty(), Optional.of("They keep none."))
                        .next())
                .isEmpty();
    }

    @Test
    void withTheReportInTheImagesAreStillWaitedFor() {
        var request = request(0, Optional.of(DUE), Optional.empty(), Optional.empty());

        assertThat(request.missing()).isEqualTo("images");
        assertThat(request.next()).isPresent();
    }

    @Test
    void whatIsHeldIsNotAskedForAndWhatNobodySaysIs() {
        assertThat(OutsideRecord.missing(DOCUMENT))
                .extracting(
                        OutsideRecord::hospital,
                        OutsideRecord::about,
                        OutsideRecord::reportMissing,
                        OutsideRecord::imagesMissing)
                .containsExactly(
                        tuple("Marrow Point General", "angiogram, left leg, 20 January 2026", true, true),
                        tuple("St Brannoc's Infirmary", "bypass operation", false, true));
    }

    @Test
    void anEntryIsFoundAgainWhereItHasMoved() {
        var entry = OutsideRecord.missing(DOCUMENT).getFirst().entry();
        var moved = Draft.of("""
                {"procedures": [{"kind": "bypass", "where": "St Brannoc's Infirmary"},
                                {"kind": "angiogram", "side": "left", "date": "2026-01-20", "where": "Marrow Point General"}]}""");

        assertThat(OutsideRecord.path(DOCUMENT, entry)).contains("procedures[0]");
        assertThat(OutsideRecord.path(moved.read(ASKED).document(), entry)).contains("procedures[1]");
        assertThat(OutsideRecord.path(document("{}"), entry)).isEmpty();
    }

    @Test
    void aLetterHoldsWhatTheRecordsOfficeNeedsAndNothingElse() {
        var letter = letter(1, List.of()).asText();

        assertThat(letter)
                .contains(
                        "Medical records\nMarrow Point General\n4 Quay Street\nMarrow Point",
                        "Request for records",
                        "Orla Penhallow, born 21 July 1949",
                        "Our reference: LQ-2026-0042",
                        "the report and images",
                        "angiogram, left leg, 20 January 2026, at Marrow Point General",
                        "by 9 March 2026",
                        "01632 960900",
                        "If it has reached you in error")
                .doesNotContain("01632 960111", "Mill Lane", "gangrene", "diagnostic", "ischaemia", "urgent");
    }

    @Test
    void aReminderNamesTheLettersBeforeItAndAsksForWhatIsMissingOnly() {
        var request = request(2, Optional.of(DUE), Optional.empty(), Optional.empty());
        var letter = new RecordsLetterWriter(practice())
                .write(
                        request,
                        3,
                        "LQ-2026-0042",
                        DOCUMENT.patient(),
                        DUE.plusDays(4),
                        List.of(ASKED, DUE),
                        DUE.plusDays(7))
                .asText();

        assertThat(letter)
                .contains(
                        "third letter",
                        "We wrote to you about this patient on 2 March 2026 and on 9 March 2026",
                        "of the following, the images:",
                        "in DICOM")
                .doesNotContain("report of the person");
    }

    private static Parts letter(int number, List<LocalDate> earlier) {
        return new RecordsLetterWriter(practice())
                .write(
                        request(0, Optional.empty(), Optional.empty(), Optional.empty()),
                        number,
                        "LQ-2026-0042",
                        DOCUMENT.patient(),
                        ASKED,
                        earlier,
                        DUE);
    }

    @Test
    void theAddressOfAHospitalIsSeenInTheWindowOfTheEnvelopeAndAScreenReaderReadsIt() {
        var parts = letter(1, List.of());
        assertThat(AccessiblePdf.failures(new LetterPage().print(parts))).isEmpty();
        WindowEnvelope.DL.assertShows(
                PrintedPage.lines(new LetterPage().print(parts), 1),
                parts.addressee(),
                "Harbour Vascular Practice · 1 Pier Road");
    }

    private static Practice practice() {
        return new Practice(
                "Harbour Vascular Practice",
                List.of("1 Pier Road"),
                "01632 960900",
                "",
                "",
                "01632 960999",
                "The office",
                EnvelopeWindow.DIN_5008_B,
                1);
    }

    private static ReferralDocument document(String json) {
        return Draft.of(json).read(ASKED).document();
    }

    private static RecordsRequest request(
            int reminders, Optional<LocalDate> report, Optional<LocalDate> images, Optional<String> givenUp) {
        return new RecordsRequest(
                1,
                1,
                1,
                "Marrow Point General",
                "4 Quay Street, Marrow Point",
                "angiogram, left leg, 20 January 2026",
                Optional.empty(),
                true,
                true,
                ASKED,
                DUE,
                reminders,
                report,
                images,
                givenUp,
                "Wren Halloway",
                Instant.EPOCH);
    }
}
