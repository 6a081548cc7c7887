package limbqueue.print;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TypefaceTest {

    /** PDFBox measures by the same font, in its own way. */
    @ParameterizedTest
    @ValueSource(strings = {"i", "Dr Ines Farrow", "WWWWWW", "Zoë Ångström-Łuczak", "Дарья Ковалёва · 12 Tannery Row"})
    void aLineIsAsWideAsTheLibraryOfThePdfSays(String line) throws IOException {
        try (var document = new PDDocument();
                var file = Typeface.open()) {
            var points = PDType0Font.load(document, file, false).getStringWidth(line) / 1000 * 10.5;

            assertThat(Typeface.width(line, 10.5)).isCloseTo(points / 72 * 25.4, within(0.02));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {20, 45, 80})
    void noLineIsWiderThanTheSpaceAndNoWordIsLost(double width) {
        var text = "The practice for arteries of the Arven Valley · 4 Weir Lane · Hollin Bridge";
        var lines = Typeface.wrapped(text, 10, width);

        assertThat(String.join(" ", lines)).isEqualTo(text);
        assertThat(lines)
                .allSatisfy(line -> assertThat(Typeface.width(line, 10)).isLessThanOrEqualTo(width));
        assertThat(lines.size()).isGreaterThan(1);
    }
}
