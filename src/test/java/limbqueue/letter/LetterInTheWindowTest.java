package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import javax.imageio.ImageIO;
import limbqueue.practice.Practice;
import limbqueue.print.EnvelopeWindow;
import limbqueue.print.Typeface;
import limbqueue.referral.ReferralState;
import limbqueue.testbed.PrintedPage;
import limbqueue.testbed.WindowEnvelope;
import limbqueue.triage.ReferralDocument;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The address of every letter, read back from the finished PDF, is seen in the window of the envelope. */
class LetterInTheWindowTest {

    private static final int DOTS_OF_AN_INCH = 254;

    private final LetterPage page = new LetterPage();

    @ParameterizedTest
    @EnumSource(EnvelopeWindow.class)
    void everyKindOfLetterShowsItsAddressAndNothingElse(EnvelopeWindow window) throws IOException {
        var envelope = envelope(window);
        var kinds = EnumSet.noneOf(LetterKind.class);
        for (var letter : LettersOfEveryStepTest.everyLetter(writer(window), addressed())) {
            if (kinds.add(letter.kind())) {
                var pdf = page.print(letter.parts());
                var lines = PrintedPage.lines(pdf, 1);
                envelope.assertShows(lines, letter.parts().addressee(), sender());
                try (var document = Loader.loadPDF(pdf)) {
                    var box = document.getPage(0).getMediaBox();
                    assertThat(box.getWidth() * 25.4 / 72).isCloseTo(envelope.paperWidth(), within(0.1));
                    assertThat(box.getHeight() * 25.4 / 72).isCloseTo(envelope.paperHeight(), within(0.1));
                    pictures(document, window + "-" + letter.kind().fileName());
                }
            }
        }
        assertThat(kinds).containsExactlyInAnyOrder(LetterKind.values());
    }

    @ParameterizedTest
    @EnumSource(EnvelopeWindow.class)
    void theLargestAddressThatIsTakenIsShownWhole(EnvelopeWindow window) {
        var widest = widest(window);
        var lines = new ArrayList<String>();
        for (var number = 1; number <= window.lines().most(); number++) {
            lines.add(number + widest);
        }

        assertThat(PostalAddress.wrongWith(lines, window)).isEmpty();
        envelope(window).assertShows(PrintedPage.lines(page.print(to(window, lines)), 1), lines, sender());

        var tooWide = new ArrayList<>(lines);
        tooWide.set(1, "2" + widest + "iii");
        assertThat(PostalAddress.wrongWith(tooWide, window).orElseThrow())
                .contains("mm wide")
                .contains(window == EnvelopeWindow.DIN_5008_B ? "shows 75 mm" : "shows 82 mm")
                .contains("“2" + widest + "iii”");
        lines.add("one more");
        assertThat(PostalAddress.wrongWith(lines, window).orElseThrow())
                .contains(window == EnvelopeWindow.DIN_5008_B ? "has 7 lines" : "has 6 lines");
    }

    /** Without regard to the marks: four lines, as most addresses have. */
    @Test
    void aUsLetterThatIsFoldedInThirdsShowsFourLines() {
        var lines = List.of("Dr Ines Farrow", "Millbeck Surgery", "12 Tannery Row", "Millbeck, AV 12345");

        WindowEnvelope.NO_10_IN_THIRDS.assertShows(
                PrintedPage.lines(page.print(to(EnvelopeWindow.US_NO_10, lines)), 1), lines, sender());
    }

    /** The check can fail: what stands a line lower is not seen. */
    @ParameterizedTest
    @EnumSource(WindowEnvelope.class)
    void theWindowEnds(WindowEnvelope envelope) {
        assertThat(envelope.alwaysShows(new PrintedPage.Line("x", 30, 70, 50, 73)))
                .isTrue();
        assertThat(envelope.alwaysShows(new PrintedPage.Line("x", 30, 92, 50, 95)))
                .isFalse();
        assertThat(envelope.alwaysShows(new PrintedPage.Line("x", 15, 70, 50, 73)))
                .isFalse();
        assertThat(envelope.alwaysShows(new PrintedPage.Line("x", 30, 70, 115, 73)))
                .isFalse();
        assertThat(envelope.mayShow(new PrintedPage.Line("x", 30, 30, 50, 40))).isFalse();
        assertThat(envelope.mayShow(new PrintedPage.Line("x", 30, 48, 50, 64))).isTrue();
    }

    @ParameterizedTest
    @EnumSource(EnvelopeWindow.class)
    void theMarksSayWhereToFold(EnvelopeWindow window) throws IOException {
        var image = image(page.print(to(window, List.of("Dr Ines Farrow", "12 Tannery Row", "Millbeck"))));

        for (var fold : window == EnvelopeWindow.DIN_5008_B ? List.of(105.0, 210.0) : List.of(101.6, 203.2)) {
            assertThat(darkest(image, fold)).as("a mark at %s mm", fold).isLessThan(200);
            assertThat(darkest(image, fold + 3)).isEqualTo(255);
            assertThat(darkest(image, fold - 3)).isEqualTo(255);
        }
    }

    @Test
    void aLongLetterheadStaysAboveTheWindowOrIsRefusedInWords() {
        var long60 = "The Practice for Arteries and Veins of Hollin Bridge Valley";
        var practice = practice(EnvelopeWindow.DIN_5008_B, long60, List.of("4 Weir Lane", "Hollin Bridge"));
        assertThat(new LetterheadOnPaper().wrongWith(practice)).isEmpty();
        var letter = new LetterWriter(practice, Samples.WORDINGS, "en-GB")
                .received(Samples.referral(ReferralState.QUEUED), addressed(), Samples.DECIDED);
        WindowEnvelope.DL.assertShows(
                PrintedPage.lines(page.print(letter.parts()), 1),
                letter.parts().addressee(),
                long60 + " · 4 Weir Lane · Hollin Bridge");

        var lines = Collections.nCopies(6, "The very long house at the end of the very long lane, third floor");
        assertThat(new LetterheadOnPaper()
                        .wrongWith(practice(EnvelopeWindow.DIN_5008_B, long60, lines))
                        .orElseThrow())
                .contains("Shorten the name or the lines of the address");
        assertThat(new LetterheadOnPaper()
                        .wrongWith(practice(EnvelopeWindow.US_NO_10, "诊所", List.of()))
                        .orElseThrow())
                .contains("“诊所”");
    }

    /** To be looked at. */
    private static void pictures(PDDocument document, String name) throws IOException {
        var folder = Files.createDirectories(Path.of("target/pictures/letters"));
        for (var number = 0; number < document.getNumberOfPages(); number++) {
            ImageIO.write(
                    new PDFRenderer(document).renderImageWithDPI(number, 90),
                    "png",
                    folder.resolve(name + "-" + (number + 1) + ".png").toFile());
        }
    }

    private static WindowEnvelope envelope(EnvelopeWindow window) {
        return switch (window) {
            case DIN_5008_B -> WindowEnvelope.DL;
            case US_NO_10 -> WindowEnvelope.NO_10;
        };
    }

    private static LetterWriter writer(EnvelopeWindow window) {
        return new LetterWriter(
                practice(window, Samples.PRACTICE.name(), Samples.PRACTICE.addressLines()), Samples.WORDINGS, "en-GB");
    }

    private static Practice practice(EnvelopeWindow window, String name, List<String> lines) {
        var sample = Samples.PRACTICE;
        return new Practice(
                name,
                lines,
                sample.phone(),
                sample.fax(),
                sample.email(),
                sample.urgentPhone(),
                sample.signatory(),
                window,
                1);
    }

    private static String sender() {
        return "Hollin Bridge Vascular Practice · 4 Weir Lane · Hollin Bridge · Arven Valley";
    }

    private static ReferralDocument addressed() {
        return Facts.with(Samples.document(), "patient.address", "3 Fuller Row, Millbeck");
    }

    private static Parts to(EnvelopeWindow window, List<String> addressee) {
        var parts = writer(window)
                .received(Samples.referral(ReferralState.QUEUED), addressed(), Samples.DECIDED)
                .parts();
        return new Parts(
                parts.language(),
                parts.letterhead(),
                parts.dated(),
                addressee,
                parts.subject(),
                parts.regarding(),
                parts.salutation(),
                parts.body(),
                parts.farewell());
    }

    /** A line which, with a digit before it, has just room. */
    private static String widest(EnvelopeWindow window) {
        var line = new StringBuilder(" Åg");
        while (Typeface.width("8" + line + "m", window.lines().points())
                <= window.address().width()) {
            line.append('m');
        }
        while (Typeface.width("8" + line + "i", window.lines().points())
                <= window.address().width()) {
            line.append('i');
        }
        return line.toString();
    }

    private static BufferedImage image(byte[] pdf) throws IOException {
        try (var document = Loader.loadPDF(pdf)) {
            return new PDFRenderer(document).renderImageWithDPI(0, DOTS_OF_AN_INCH);
        }
    }

    /** Of the left edge, half a millimetre above and below {@code y}: 0 is black, 255 white. */
    private static int darkest(BufferedImage image, double y) {
        var darkest = 255;
        for (var dot = (int) (y * 10) - 5; dot <= (int) (y * 10) + 5; dot++) {
            darkest = Math.min(darkest, image.getRGB(75, dot) & 0xff);
        }
        return darkest;
    }
}
