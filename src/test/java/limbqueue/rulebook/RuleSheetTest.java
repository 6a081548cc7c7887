package limbqueue.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import limbqueue.referral.RuleFirings;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.RuleBook;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

/** The rule book in the words of its page, and on paper. */
class RuleSheetTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    private static RuleSheet sheet(RuleBook book) {
        return RuleSheet.of(
                book, "standard-1", DAY, new RuleFirings.Count(40, Map.of("ankle-brachial-index", 37, "only-leg", 1)));
    }

    private static RuleSheet.Entry entry(RuleSheet sheet, String id) {
        return sheet.chapters().stream()
                .flatMap(chapter -> chapter.entries().stream())
                .filter(entry -> entry.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** The shipped book with a limit that had another value before. */
    private static RuleBook withHistory() {
        var files = new HashMap<>(RuleBook.shipped().files());
        files.computeIfPresent(
                "thresholds.txt", (name, text) -> text.replaceAll("(?m)^abi-normal-at-most .*\n", "") + """
                abi-normal-at-most | 1.30 | 1 | 2005-12-01 | 2011-09-28 | acc-aha-2024 | edition of 2005 | secondary
                abi-normal-at-most | 1.40 | 1 | 2011-09-29 | -          | acc-aha-2024 | update of 2011  | confirmed
                """);
        return RuleBook.of(files);
    }

    @Test
    void everyRuleStandsInItsChapterWithItsCount() {
        var sheet = sheet(RuleBook.shipped());
        assertThat(sheet.rules()).isEqualTo(RuleBook.shipped().rules().size());
        assertThat(sheet.chapters())
                .extracting(RuleSheet.Chapter::heading)
                .startsWith("Perfusion", "Grades", "Limb threat", "WIfI")
                .endsWith("Urgency", "Red flags", "Work-up", "Procedure plan");
        assertThat(entry(sheet, "ankle-brachial-index").speaksIn()).isEqualTo(37);
        assertThat(entry(sheet, "fontaine").speaksIn()).isZero();
    }

    @Test
    void aThresholdHasEveryValueWithItsUnitAndDates() {
        assertThat(entry(sheet(withHistory()), "ankle-brachial-index").numbers())
                .contains(
                        new RuleSheet.Value(
                                "ABI normal at most",
                                "1.30",
                                "acc-aha-2024",
                                "edition of 2005",
                                "secondary",
                                "1 Dec 2005 to 28 Sep 2011"),
                        new RuleSheet.Value(
                                "ABI normal at most",
                                "1.40",
                                "acc-aha-2024",
                                "update of 2011",
                                "confirmed",
                                "since 29 Sep 2011"));
        assertThat(entry(sheet(RuleBook.shipped()), "kidney-risk").numbers())
                .singleElement()
                .extracting(RuleSheet.Value::value)
                .isEqualTo("30 mL/min/1.73 m²");
    }

    @Test
    void aSearchFindsWordsOfEverythingShown() {
        var aneurysm = entry(sheet(withHistory()), "urgency-popliteal-aneurysm");
        for (var words : List.of("popliteal", "URGENCY-popl", "20 mm", "common practice", "unknown size  within")) {
            assertThat(aneurysm.has(words)).as(words).isTrue();
        }
        assertThat(aneurysm.has("popliteal gangrene")).isFalse();
        var index = entry(sheet(withHistory()), "ankle-brachial-index");
        for (var words : List.of("gornik", "28 sep 2011", "edition of 2005", "confirmed")) {
            assertThat(index.has(words)).as(words).isTrue();
        }
    }

    @Test
    void thePrintedBookSaysWhatItIsAndHoldsEveryRule() throws IOException {
        var sheet = sheet(withHistory());
        try (var pdf = Loader.loadPDF(RulePages.print(sheet, "Hollin Bridge <Vascular> & Sons"))) {
            var words = new PDFTextStripper().getText(pdf).replaceAll("\\s+", " ");
            var pages = pdf.getNumberOfPages();
            assertThat(pages).isGreaterThan(5);
            for (var page = 1; page <= pages; page++) {
                var stripper = new PDFTextStripper();
                stripper.setStartPage(page);
                stripper.setEndPage(page);
                assertThat(stripper.getText(pdf).replaceAll("\\s+", " "))
                        .contains("Page " + page + " of " + pages)
                        .contains("LimbQueue rule book " + sheet.book() + ", 2 Mar 2026")
                        .contains("a licensed clinician decides");
            }
            assertThat(words)
                    .contains(TriageResult.NOTICE)
                    .contains("Hollin Bridge <Vascular> & Sons")
                    .contains("latest proposals of 40 referrals")
                    .contains(
                            "ABI normal at most 1.30, 1 Dec 2005 to 28 Sep 2011; acc-aha-2024, edition of 2005 (secondary)")
                    .contains("Common practice: no published source");
            sheet.chapters()
                    .forEach(chapter -> chapter.entries()
                            .forEach(entry ->
                                    assertThat(words).contains(entry.says()).contains(entry.id() + " ")));
            assertThat(pdf.getDocumentCatalog().getStructureTreeRoot()).isNotNull();
            assertThat(pdf.getDocumentInformation().getTitle()).isEqualTo("Rule book");
            for (var name : pdf.getPage(0).getResources().getFontNames()) {
                assertThat(pdf.getPage(0).getResources().getFont(name).isEmbedded())
                        .isTrue();
            }
        }
    }
}
