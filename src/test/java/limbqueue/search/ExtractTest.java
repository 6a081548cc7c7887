package limbqueue.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class ExtractTest {

    private static String marked(String text, String typed) {
        return Extract.of("Letter", text, Sought.of(typed)).orElseThrow().pieces().stream()
                .map(piece -> piece.sought() ? "[" + piece.text() + "]" : piece.text())
                .collect(Collectors.joining());
    }

    @Test
    void theWordsSoughtAreMarkedAsTheyAreWritten() {
        assertThat(marked("Zoë Ångström-Łuczak", "angstrom luc")).isEqualTo("Zoë [Ångström]-[Łuczak]");
        assertThat(marked("O’Brien, STRAßE 7", "strasse")).isEqualTo("O’Brien, [STRAßE] 7");
    }

    @Test
    void ofALongLetterThePartAroundTheFirstWordIsShown() {
        var text = "before ".repeat(100) + "the claudication " + "after ".repeat(100);
        var extract = marked(text, "claudic");
        assertThat(extract)
                .startsWith("… before")
                .contains("the [claudication] after")
                .endsWith(" …");
        assertThat(extract.length()).isBetween(180, 260);
    }

    @Test
    void aCharacterOfTwoHalvesIsNeverCut() {
        for (var shift = 0; shift < 4; shift++) {
            var text = "x".repeat(shift) + " claudication" + "😀".repeat(300);
            assertThat(marked(text, "claudication").replace(" …", ""))
                    .satisfies(shown -> assertThat(Character.isHighSurrogate(shown.charAt(shown.length() - 1)))
                            .isFalse());
        }
    }

    @Test
    void aPlaceWithoutTheWordsIsNotShown() {
        assertThat(Extract.of("Letter", "rest pain", Sought.of("ulcer"))).isEmpty();
    }
}
