package limbqueue.shell;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Quoting by RFC 4180, section 2. That signs of a formula are made harmless is common practice, no source. */
class CsvTextTest {

    @Test
    void aTableIsLinesThatEndAsTheRfcSays() {
        assertThat(CsvText.of(List.of("a", "b"), List.of(List.of("1", "x \"y\", z"), List.of("two\nlines", ""))))
                .isEqualTo("\uFEFFa,b\r\n1,\"x \"\"y\"\", z\"\r\n\"two\nlines\",\r\n");
    }

    @ParameterizedTest
    @CsvSource({
        "=1+1, '''=1+1'",
        "'@SUM(A1)', '''@SUM(A1)'",
        "+cmd|x, '''+cmd|x'",
        "-2+3, '''-2+3'",
        "'  =1', '''  =1'",
        "=x, '''=x'"
    })
    void whatASpreadsheetWouldRunIsMadeHarmless(String words, String cell) {
        assertThat(CsvText.cell(words)).isEqualTo(cell);
    }

    @ParameterizedTest
    @CsvSource({"-12, -12", "+44, +44", "'-0,5', '\"-0,5\"'", "Łuczak-Smith, Łuczak-Smith", "a=b, a=b"})
    void plainNumbersAndWordsStayAsTheyAre(String words, String cell) {
        assertThat(CsvText.cell(words)).isEqualTo(cell);
    }
}
