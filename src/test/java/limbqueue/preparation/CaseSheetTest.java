package limbqueue.preparation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import limbqueue.document.Draft;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.RuleBook;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The sheet that goes to the room, read back from the PDF by another library. All people in it are invented. */
class CaseSheetTest {

    private static final Path DEMO = Path.of("demo-referrals");
    private static final Path PICTURES = Path.of("target/pictures");
    private static final LocalDateTime STARTS = LocalDateTime.of(2026, 3, 9, 8, 30);
    private static final Instant AT = Instant.parse("2026-03-01T09:00:00Z");

    /** Those with lesions, and those of which most is told. */
    static Stream<Path> fullest() throws IOException {
        try (var files = Files.list(DEMO)) {
            var all = files.filter(file -> file.toString().endsWith(".referral.json"))
                    .toList();
            return Stream.concat(
                            all.stream().filter(file -> read(file).contains("\"lesions\"")),
                            all.stream()
                                    .sorted((one, other) ->
                                            read(other).length() - read(one).length())
                                    .limit(4))
                    .distinct();
        }
    }

    @ParameterizedTest
    @MethodSource("fullest")
    void theFullestDemoReferralsStayOnOnePage(Path file) throws IOException {
        var pdf = print(Draft.of(read(file)), List.of());

        try (var document = Loader.loadPDF(pdf)) {
            assertThat(document.getNumberOfPages()).isEqualTo(1);
            assertThat(new PDFTextStripper().getText(document)).contains("Case sheet", "Not ready for the room");
        }
    }

    @Test
    void theSheetSaysWhatTheRoomNeeds() throws IOException {
        var draft = Draft.of(read(DEMO.resolve("33-failed-attempt-elsewhere.referral.json")));
        draft.set("lesions[0].diameterMm", 8);
        draft.set("labs[0].test", "creatinine");
        draft.set("labs[0].value", 92);
        draft.set("labs[0].unit", "umol/L");
        draft.set("labs[0].taken", "2026-02-27");
        var stent = Cases.stent(1, 8, 58, "2027-01-31", 1, 1);
        var pdf = print(draft, List.of(Cases.confirmed(Side.LEFT, Segment.EXTERNAL_ILIAC, stent)));

        Files.createDirectories(PICTURES);
        Files.write(PICTURES.resolve("case-sheet-full.pdf"), pdf);
        try (var document = Loader.loadPDF(pdf)) {
            ImageIO.write(
                    new PDFRenderer(document).renderImageWithDPI(0, 110),
                    "png",
                    PICTURES.resolve("case-sheet-full.png").toFile());
            var words = new PDFTextStripper().getText(document).replaceAll("[\\s\\u00a0]+", " ");
            assertThat(words)
                    .contains("D-0033", "9 Mar 2026, 08:30, Room 2", "not approved")
                    .contains("Left external iliac: occluded, 70 mm long, vessel 8 mm, severe calcification")
                    .contains(
                            "Covered stent for the left external iliac artery, 8 to 9 mm wide, at least 50 mm long: 8 x 58"
                                    + " mm, 7 Fr, lot L-1, seen by Wren Halloway")
                    .contains("creatinine 92 umol/L, 27 Feb 2026")
                    .contains("Rutherford", "Fontaine", "Access", "1. ", "Bail-out: ", "tamponade balloon")
                    .contains("No physician's approval stands.", "earlier attempt")
                    .containsPattern("100 %,? 70 mm")
                    .contains(TriageResult.NOTICE);
        }
    }

    @Test
    void whatIsTypedIsNeverTakenForMarkup() throws IOException {
        var draft = Draft.of(read(DEMO.resolve("02-limiting-claudication.referral.json")));
        draft.set("patient.family", "O'Hara <b>& Sons</b>");
        draft.set("medicines[0].name", "<img src='x'/>");

        try (var document = Loader.loadPDF(print(draft, List.of()))) {
            assertThat(new PDFTextStripper().getText(document)).contains("O'Hara <b>& Sons</b>", "<img src='x'/>");
        }
    }

    private static byte[] print(Draft draft, List<StentConfirmation> confirmed) {
        var document = draft.read(Cases.TODAY).document();
        var proposal = Triage.triage(document, Policy.standard(), Cases.TODAY);
        var referral = new Referral(
                1,
                3,
                document.reference().orElse("LQ-2026-0001"),
                ReferralState.QUEUED,
                Cases.TODAY,
                draft.toJson(),
                "Wren Halloway",
                AT,
                Optional.of(AT));
        var booking =
                new ProcedureBooking(1, 1, STARTS, "Room 2", Optional.empty(), Optional.empty(), "Wren Halloway", AT);
        var prepared = PreparationCase.of(
                new ProposedCase(
                        referral,
                        document,
                        proposal,
                        Optional.empty(),
                        proposal.urgency().targetDate()),
                Optional.of(Triage.workUpFor(document, Policy.standard(), RuleBook.shipped(), Cases.TODAY, STARTS)),
                List.of(),
                Optional.of(booking),
                confirmed,
                List.of(),
                Optional.empty(),
                Optional.empty(),
                RuleBook.shipped().on(Cases.TODAY));
        return CaseSheet.print(
                prepared,
                List.of(),
                "Hollin Bridge Vascular Practice",
                Policy.standard(),
                Optional.of(new ExpectedMinutes(104, 187, 3)),
                LocalDate.of(2026, 3, 2));
    }

    private static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }
}
