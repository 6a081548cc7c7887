package limbqueue.invitation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.StepKind;
import limbqueue.invitation.AppointmentLetter.Facts;
import limbqueue.letter.LetterPage;
import limbqueue.letter.Parts;
import limbqueue.letter.Parts.Passage;
import limbqueue.practice.Practice;
import limbqueue.print.EnvelopeWindow;
import limbqueue.testbed.AccessiblePdf;
import limbqueue.testbed.PrintedPage;
import limbqueue.testbed.WindowEnvelope;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** All people and places are invented. */
class AppointmentLetterTest {

    private static final Practice PRACTICE = new Practice(
            "Hollin Bridge Vascular Practice",
            List.of("4 Weir Lane", "Hollin Bridge"),
            "01632 960100",
            "",
            "office@hollinbridge.example.org",
            "01632 960199",
            "Dr Maren Oakshott",
            EnvelopeWindow.DIN_5008_B,
            1);
    private static final LocalDate DATED = LocalDate.of(2026, 3, 2);

    /**
     * A grade of 6 or less is what the American Medical Association asks of what patients read (B. D. Weiss, Health literacy: a
     * manual for clinicians, 2003); a reading ease from 70 up is fairly easy (R. Flesch, How to write plain English, 1979). Numbers
     * and the letterhead are no running text and are left out; and the paragraphs have to be easy without the short lists.
     */
    @ParameterizedTest
    @EnumSource(StepKind.class)
    void aSixthGraderCanReadIt(StepKind step) {
        var text = parts(step).body().stream().map(AppointmentLetterTest::text).collect(Collectors.joining("\n"));
        var paragraphs = parts(step).body().stream()
                .filter(passage -> passage.items().isEmpty())
                .map(Passage::text)
                .collect(Collectors.joining("\n"));
        var readability = Readability.of(text);

        assertThat(readability.words()).as(text).isGreaterThan(100);
        assertThat(readability.grade()).as(text).isLessThanOrEqualTo(6.0);
        assertThat(readability.ease()).as(text).isGreaterThanOrEqualTo(70.0);
        assertThat(Readability.of(paragraphs).grade()).as(paragraphs).isLessThanOrEqualTo(6.0);
    }

    /** Syllables as dictionaries divide these words; the count of the formula is not ours to choose. */
    @ParameterizedTest
    @CsvSource({
        "leg, 1",
        "make, 1",
        "places, 2",
        "needed, 2",
        "looked, 1",
        "doctor, 2",
        "people, 2",
        "medicine, 3",
        "emergency, 4",
        "department, 3",
        "appointment, 3",
        "ischaemia, 4",
        "revascularisation, 7"
    })
    void syllablesAreCountedAsTheyAreSpoken(String word, int syllables) {
        assertThat(Readability.syllables(word)).isEqualTo(syllables);
    }

    /** The formulas of the two sources, by hand: ten words of one syllable in two sentences. */
    @Test
    void theFormulasAreTheOnesPublished() {
        var readability = Readability.of("You can eat and drink. Please bring this list too.");
        assertThat(readability).isEqualTo(new Readability(10, 2, 10));
        assertThat(readability.ease()).isCloseTo(206.835 - 5.075 - 84.6, within(0.001));
        assertThat(readability.grade()).isCloseTo(1.95 + 11.8 - 15.59, within(0.001));
        assertThat(Readability.of("Multidisciplinary revascularisation necessitates comprehensive investigation.")
                        .grade())
                .as("a text that nobody should send fails")
                .isGreaterThan(6.0);
    }

    @ParameterizedTest
    @EnumSource(StepKind.class)
    void itSaysWhenAndWhereWhoDecidesAndWhatMustNotWait(StepKind step) {
        var text = parts(step).asText();

        assertThat(text)
                .contains("Zoë Ångström-Łuczak\n17 Mill Row\nHollin Bridge")
                .contains("day: Thursday 5 March 2026")
                .contains("time: please come at 08:25")
                .contains("place: Angiography room")
                .contains("Our reference: LQ-26-0042")
                .contains("This letter proposes")
                .contains("A licensed doctor decides")
                .contains("the rules of this practice come first")
                .contains("Call us at once on 01632 960199, or go to the nearest emergency department.");
    }

    /** Which medicine, and how long without food, is said by nobody but the practice, after the physician's approval. */
    @ParameterizedTest
    @EnumSource(StepKind.class)
    void itNamesNoMedicineNoHoursAndNothingThatWasFound(StepKind step) {
        assertThat(parts(step).asText())
                .doesNotContainIgnoringCase("warfarin")
                .doesNotContainIgnoringCase("aspirin")
                .doesNotContainIgnoringCase("metformin")
                .doesNotContainIgnoringCase("hours")
                .doesNotContainIgnoringCase("fast ")
                .doesNotContainIgnoringCase("nil by mouth")
                .doesNotContainIgnoringCase("flag")
                .doesNotContainIgnoringCase("suspect")
                .doesNotContainIgnoringCase("cancer")
                .doesNotContainIgnoringCase("amputat")
                .doesNotContainIgnoringCase("Rutherford")
                .doesNotContainIgnoringCase("urgent");
    }

    @ParameterizedTest
    @CsvSource({"CTA, true", "PROCEDURE, true", "CLINIC, false", "PRESSURES_AND_DUPLEX, false"})
    void medicinesAreOnlySpokenOfAsPausedWhereSomeMayBe(StepKind step, boolean some) {
        var pause = "The practice will tell you which medicines to pause";
        var text = parts(step).asText();
        if (some) {
            assertThat(text).contains(pause).contains("Do not stop any medicine on your own.");
        } else {
            assertThat(text).doesNotContain("pause").contains("Take your medicines as you always do.");
        }
    }

    @ParameterizedTest
    @CsvSource({"08:00, 08:00", "08:04, 08:00", "08:05, 08:05", "08:59, 08:55", "00:01, 00:00"})
    void patientsComeAtTheFullFiveMinutesBefore(LocalTime expected, LocalTime told) {
        assertThat(AppointmentLetter.timeToCome(expected)).isEqualTo(told);
    }

    @Test
    void whatIsMissingIsLeftOutInWords() {
        var nobody = new Facts(" ", Optional.empty(), "LQ-26-0042", StepKind.CLINIC, at(), "Room 1");
        var silent = new Practice(
                "Hollin Bridge Vascular Practice", List.of(), "", "", "", "", "", EnvelopeWindow.DIN_5008_B, 1);
        var parts = AppointmentLetter.parts(silent, nobody, DATED);

        assertThat(parts.salutation()).isEqualTo("Dear patient,");
        assertThat(parts.addressee()).isEmpty();
        assertThat(parts.asText())
                .contains("Go to the nearest emergency department at once.")
                .doesNotContain("null");
    }

    @ParameterizedTest
    @EnumSource(StepKind.class)
    void itIsOneSheetOfPdfWhoseFirstPageSaysWhenAndWhatMustNotWait(StepKind step) throws IOException {
        try (var pdf = Loader.loadPDF(new LetterPage().print(parts(step)))) {
            assertThat(pdf.getNumberOfPages()).isLessThanOrEqualTo(2);
            var stripper = new PDFTextStripper();
            stripper.setEndPage(1);
            assertThat(stripper.getText(pdf).replaceAll("\\s+", " "))
                    .contains("go to the nearest emergency department")
                    .contains("Your visit on Thursday 5 March 2026")
                    .contains("Dear Zoë Ångström-Łuczak,")
                    .contains("please come at 08:25");
            assertThat(new PDFTextStripper().getText(pdf).replaceAll("\\s+", " "))
                    .contains("A licensed doctor decides what is right for you.");
            assertThat(pdf.getDocumentCatalog().getLanguage()).isEqualTo("en-GB");
        }
    }

    @ParameterizedTest
    @EnumSource(StepKind.class)
    void theAddressIsSeenInTheWindowOfTheEnvelopeAndAScreenReaderReadsIt(StepKind step) {
        assertThat(AccessiblePdf.failures(new LetterPage().print(parts(step)))).isEmpty();
        WindowEnvelope.DL.assertShows(
                PrintedPage.lines(new LetterPage().print(parts(step)), 1),
                List.of("Zoë Ångström-Łuczak", "17 Mill Row", "Hollin Bridge"),
                "Hollin Bridge Vascular Practice · 4 Weir Lane · Hollin Bridge");
    }

    private static Parts parts(StepKind step) {
        return AppointmentLetter.parts(
                PRACTICE,
                new Facts(
                        "Zoë Ångström-Łuczak",
                        Optional.of("17 Mill Row, Hollin Bridge"),
                        "LQ-26-0042",
                        step,
                        at(),
                        "Angiography room"),
                DATED);
    }

    private static LocalDateTime at() {
        return LocalDateTime.of(2026, 3, 5, 8, 27);
    }

    private static String text(Passage passage) {
        return passage.text() + "\n" + String.join("\n", passage.items());
    }
}
