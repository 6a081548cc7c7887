package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.print.EnvelopeWindow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.json.JsonMapper;

/** What the typeface of letters cannot show is told by its words. */
class LegibleTest {

    @ParameterizedTest
    @ValueSource(strings = {"山田", "한국어", "محمد", "שלום", "ไทย", "हिन्दी", "😀"})
    void aNameInAnotherScriptIsNamed(String name) {
        assertThat(Legible.wrongWith("Dear " + name + ",\nwe thank you.").orElseThrow())
                .contains("“" + name + "”")
                .doesNotContain("Dear", "thank");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"Zoë Ångström-Łuczak", "Дарья Ковалёва", "Σοφία", "≥ 0.9 × 10 – “so” … · • €", "Nguyễn Văn Đức"})
    void whatThePageCanShowIsNoFault(String text) {
        assertThat(Legible.wrongWith(text)).isEmpty();
    }

    @Test
    void noMoreThanThreeAreNamed() {
        assertThat(Legible.wrongWith("山 田 太 郎").orElseThrow()).endsWith("“山”, “田”, “太” and more.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"en-GB", "es"})
    void everyShippedLetterIsLegible(String language) {
        for (var letter : LettersOfEveryStepTest.everyLetter(Samples.writer(language), Samples.document())) {
            assertThat(Legible.wrongWith(letter.parts()))
                    .as("%s", letter.kind())
                    .isEmpty();
        }
    }

    /** Letters are kept as they were written. */
    @Test
    void aLetterFromBeforeTheChoiceOfEnvelopesIsStillRead() {
        var head = JsonMapper.shared()
                .readValue("{\"name\": \"The practice\", \"lines\": [], \"contact\": []}", Parts.Letterhead.class);

        assertThat(head.window()).isEqualTo(EnvelopeWindow.DIN_5008_B);
    }
}
