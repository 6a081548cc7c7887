package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import limbqueue.print.JoinedPdf;
import limbqueue.referral.DecisionKind;
import limbqueue.testbed.AccessiblePdf;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Letters as a screen reader finds them, judged by veraPDF after PDF/UA-1. */
class AccessibleLetterTest {

    private final LetterPage page = new LetterPage();

    @ParameterizedTest
    @ValueSource(strings = {"en-GB", "es"})
    void everyKindOfLetterPasses(String language) throws IOException {
        var kinds = EnumSet.noneOf(LetterKind.class);
        var document = Facts.with(Samples.document(), "patient.address", "3 Fuller Row, Millbeck");
        for (var letter : LettersOfEveryStepTest.everyLetter(Samples.writer(language), document)) {
            if (kinds.add(letter.kind())) {
                var pdf = page.print(letter.parts());
                assertThat(AccessiblePdf.failures(pdf)).as("%s", letter.kind()).isEmpty();
                try (var read = Loader.loadPDF(pdf)) {
                    assertThat(read.getDocumentCatalog().getLanguage()).isEqualTo(language);
                    assertThat(read.getDocumentInformation().getTitle())
                            .isEqualTo(letter.parts().subject());
                }
            }
        }
        assertThat(kinds).containsExactlyInAnyOrder(LetterKind.values());
    }

    @Test
    void aLetterOfSeveralPagesPasses() {
        assertThat(AccessiblePdf.failures(longLetter())).isEmpty();
    }

    /** The tags of each letter, in its own language, and nothing of the first letter's title or patient over all. */
    @Test
    void theDaysPostPassesToo() throws IOException {
        var letters = new ArrayList<byte[]>();
        for (var language : List.of("es", "en-GB")) {
            LettersOfEveryStepTest.everyLetter(Samples.writer(language), Samples.document()).stream()
                    .limit(3)
                    .forEach(letter -> letters.add(page.print(letter.parts())));
        }
        letters.add(longLetter());
        var joined = JoinedPdf.of("Letters to post", "en-GB", letters);

        assertThat(AccessiblePdf.failures(joined)).isEmpty();
        try (var read = Loader.loadPDF(joined)) {
            var catalog = read.getDocumentCatalog();
            assertThat(read.getDocumentInformation().getTitle()).isEqualTo("Letters to post");
            assertThat(read.getDocumentInformation().getSubject()).isNull();
            assertThat(new String(catalog.getMetadata().toByteArray(), StandardCharsets.UTF_8))
                    .contains("Letters to post")
                    .doesNotContain("Zoë");
            assertThat(languages(read)).containsExactly("es", "es", "es", "en-GB", "en-GB", "en-GB", "en-GB");
        }
    }

    /** The check can fail: words without a tag, in a font that is not inside. */
    @Test
    void aPageWithoutTagsFails() throws IOException {
        try (var document = new PDDocument()) {
            var page = new PDPage();
            document.addPage(page);
            try (var content = new PDPageContentStream(document, page)) {
                content.beginText();
                content.setFont(new PDType1Font(Standard14Fonts.FontName.HELVETICA), 12);
                content.showText("Dear colleague");
                content.endText();
            }
            var out = new ByteArrayOutputStream();
            document.save(out);

            assertThat(AccessiblePdf.failures(out.toByteArray()))
                    .anyMatch(failure -> failure.startsWith("7.1-3:"))
                    .anyMatch(failure -> failure.startsWith("7.21.4.1-1:"));
        }
    }

    private byte[] longLetter() {
        var words = String.join("\n", Collections.nCopies(80, "Please send one more report."));
        var proposal = Samples.proposal(
                Tier.WITHIN_14_DAYS,
                Samples.leg(Rutherford.CHRONIC_5, Fontaine.IV, Tier.WITHIN_14_DAYS),
                Samples.soundLeg());
        return page.print(Samples.writer("en-GB")
                .decided(Samples.decided(
                        Samples.document(), proposal, DecisionKind.INFORMATION_ASKED, Tier.WITHIN_14_DAYS, words))
                .parts());
    }

    /** Of every part that says its language, in the order of the pages. */
    private static List<String> languages(PDDocument document) {
        var found = new ArrayList<String>();
        document.getDocumentCatalog().getStructureTreeRoot().getKids().forEach(kid -> languages(kid, found));
        return found;
    }

    private static void languages(Object node, List<String> found) {
        if (node instanceof PDStructureElement element) {
            if (element.getLanguage() != null) {
                found.add(element.getLanguage());
            } else {
                element.getKids().forEach(kid -> languages(kid, found));
            }
        }
    }
}
