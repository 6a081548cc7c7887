package limbqueue.search;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.search.Sought.Term.Beginning;
import limbqueue.search.Sought.Term.Digits;
import limbqueue.search.Sought.Term.Phrase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is typed into the search, taken apart (common practice of search, no source). */
class SoughtTest {

    @Test
    void everyWordIsABeginningAndQuotesKeepWordsTogether() {
        assertThat(Sought.of("  Thornbury “cold  foot” mill\"rest pain\" ").terms())
                .containsExactly(
                        new Beginning("Thornbury"),
                        new Phrase("cold  foot"),
                        new Beginning("mill"),
                        new Phrase("rest pain"));
    }

    @Test
    void aQuoteThatIsNeverClosedEndsWithTheText() {
        assertThat(Sought.of("\"rest pain").terms()).containsExactly(new Phrase("rest pain"));
    }

    @Test
    void digitsInGroupsAreOneTelephoneNumberHoweverTheyAreSet() {
        assertThat(Sought.of("01632 960 202").terms()).containsExactly(new Digits("01632960202"));
        assertThat(Sought.of("+44 (0)1632-960202 Pell").terms())
                .containsExactly(new Digits("4401632960202"), new Beginning("Pell"));
        assertThat(Sought.of("1951").terms()).containsExactly(new Beginning("1951"));
        assertThat(Sought.of("12 Tannery").terms()).containsExactly(new Beginning("12"), new Beginning("Tannery"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "  ", "a", "!", "\"\"", "& | ! ( ) : *", "'", "\\", "😀"})
    void whatSaysTooLittleIsNotSought(String typed) {
        assertThat(Sought.of(typed).tooShort()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"李", "ab", "a b", "я", "o'b"})
    void aSingleCharacterOfAnotherScriptMayBeAWholeName(String typed) {
        assertThat(Sought.of(typed).tooShort()).isEqualTo("a b".equals(typed));
    }

    @Test
    void textWithoutEndIsCut() {
        assertThat(Sought.of("word ".repeat(100_000)).terms()).hasSizeLessThanOrEqualTo(12);
    }

    @Test
    void wordsAreRecognisedWithAndWithoutAccents() {
        var sought = Sought.of("Angstrom zoë");
        assertThat(sought.has("angstrom")).isTrue();
        assertThat(sought.has("angstroms")).isTrue();
        assertThat(sought.has("zoe")).isTrue();
        assertThat(sought.has("angst")).isFalse();
        assertThat(Sought.of("\"rest pain\"").has("pains")).isFalse();
    }
}
