package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Collections;
import java.util.List;
import limbqueue.referral.DecisionKind;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

class LetterPageTest {

    private final LetterWriter writer = Samples.writer("en-GB");
    private final LetterPage page = new LetterPage();

    @Test
    void theWordsOfTheLetterComeBackFromThePdf() throws IOException {
        var document = Facts.with(Samples.document(), "referrer.name", "Dr Дарья Ковалёва & Σοφία <Ltd>");

        try (var pdf = Loader.loadPDF(page.print(triaged(document)))) {
            assertThat(words(pdf))
                    .contains("Zoë Ångström-Łuczak")
                    .contains("Dr Дарья Ковалёва & Σοφία <Ltd>")
                    .contains("Hollin Bridge Vascular Practice")
                    .contains("by 16 March 2026")
                    .doesNotContain("Page 1");
        }
    }

    @Test
    void thePageIsA4NamedTaggedAndInEnglishWithItsFontInside() throws IOException {
        try (var pdf = Loader.loadPDF(page.print(triaged(Samples.document())))) {
            assertThat(pdf.getNumberOfPages()).isEqualTo(1);
            var box = pdf.getPage(0).getMediaBox();
            assertThat(box.getWidth()).isCloseTo(PDRectangle.A4.getWidth(), org.assertj.core.data.Offset.offset(1f));
            assertThat(box.getHeight()).isCloseTo(PDRectangle.A4.getHeight(), org.assertj.core.data.Offset.offset(1f));
            assertThat(pdf.getDocumentInformation().getTitle()).isEqualTo("How soon we plan to see your patient");
            assertThat(pdf.getDocumentCatalog().getLanguage()).isEqualTo("en-GB");
            assertThat(pdf.getDocumentCatalog().getStructureTreeRoot()).isNotNull();
            for (var name : pdf.getPage(0).getResources().getFontNames()) {
                assertThat(pdf.getPage(0).getResources().getFont(name).isEmbedded())
                        .isTrue();
            }
        }
    }

    @Test
    void aLongLetterNumbersItsPages() throws IOException {
        var words = String.join("\n", Collections.nCopies(80, "Please send one more report."));
        var proposal = Samples.proposal(
                Tier.WITHIN_14_DAYS,
                Samples.leg(Rutherford.CHRONIC_5, Fontaine.IV, Tier.WITHIN_14_DAYS),
                Samples.soundLeg());
        var letter = writer.decided(Samples.decided(
                Samples.document(), proposal, DecisionKind.INFORMATION_ASKED, Tier.WITHIN_14_DAYS, words));

        try (var pdf = Loader.loadPDF(page.print(letter.parts()))) {
            var pages = pdf.getNumberOfPages();
            assertThat(pages).isGreaterThan(1);
            assertThat(words(pdf)).contains("Page 1 of " + pages).contains("Page " + pages + " of " + pages);
        }
    }

    @Test
    void whatIsTypedNeverBecomesMarkup() throws IOException {
        var document = Facts.with(
                Samples.document(), "patient.family", "</p><img src='file:///etc/hostname'/>&#60;script> ]]> <!-- %s");

        try (var pdf = Loader.loadPDF(page.print(triaged(document)))) {
            assertThat(words(pdf).replaceAll("\\s+", " ")).contains("</p><img src='file:///etc/hostname'/>");
        }
    }

    @Test
    void anUnknownScriptDoesNotStopALetter() throws IOException {
        var document = Facts.with(Samples.document(), "patient.family", "山田 \uD83D\uDE00");

        try (var pdf = Loader.loadPDF(page.print(triaged(document)))) {
            assertThat(pdf.getNumberOfPages()).isEqualTo(1);
        }
    }

    private Parts triaged(ReferralDocument document) {
        var proposal = Samples.with(
                Samples.proposal(
                        Tier.WITHIN_14_DAYS,
                        Samples.leg(Rutherford.CHRONIC_5, Fontaine.IV, Tier.WITHIN_14_DAYS),
                        Samples.soundLeg()),
                List.of(),
                List.of(),
                List.of(Samples.needed("kidney-function"), Samples.needed("outside-report")),
                List.of());
        return writer.decided(Samples.decided(document, proposal, DecisionKind.APPROVED, Tier.WITHIN_14_DAYS, ""))
                .parts();
    }

    private static String words(PDDocument pdf) throws IOException {
        return new PDFTextStripper().getText(pdf);
    }
}
