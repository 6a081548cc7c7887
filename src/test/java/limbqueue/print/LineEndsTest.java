package limbqueue.print;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Lines of a finished page, read back by PDFBox. */
class LineEndsTest {

    /** Paragraphs of a narrow column, the first of which begins at its left edge and each later one a little further on. */
    private static String pages(String one) {
        var paragraphs = new StringBuilder();
        for (var i = 0; i < 60; i++) {
            paragraphs.append("<p>%s at %s and so on</p>".formatted("i".repeat(i), one));
        }
        return "<html><head><title>t</title><style>body { font-family: serif; font-size: 10pt; width: 45mm }</style></head><body>%s</body></html>"
                .formatted(paragraphs);
    }

    private static List<String> lines(String html) throws IOException {
        try (var document = Loader.loadPDF(PdfPages.set(html))) {
            return new PDFTextStripper().getText(document).lines().toList();
        }
    }

    /** The first three kept together by Unicode Standard Annex 14, rule LB25 (value from memory), the others common practice, no source. */
    @ParameterizedTest
    @ValueSource(strings = {"08:00", "120/80", "12,5", "555-0142", "LQ-2026-0003", "1-2"})
    void whatIsReadAsOneStandsOnOneLineWhereverItFalls(String one) throws IOException {
        var whole = new ArrayList<String>();
        var begins = 0;
        for (var line : lines(pages(one))) {
            if (line.contains(one)) {
                whole.add(line);
                begins += line.startsWith(one) ? 1 : 0;
            }
        }
        assertThat(whole).as("each of 60 paragraphs has it on one line").hasSize(60);
        assertThat(begins).as("in some it came to the end of a line").isPositive();
    }
}
