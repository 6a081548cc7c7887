package limbqueue.letter.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import limbqueue.letter.LetterKind;
import limbqueue.letter.Parts.Passage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WordingTest {

    private static final String RIGHT = """
            # A remark.
            Subject: We return it

            Thank you for {{patient}}.{{#phone}} Call {{phone}}.{{/phone}}{{^phone}} Write to us.{{/phone}}

            {{#words}}
            These are the reasons:
            - {{item}}
            {{/words}}
            {{^words}}
            There is no reason.
            {{/words}}
            """;

    @Test
    void whatIsKnownStandsInItsPlaceAndWhatIsNotLeavesNoGap() {
        var template = read(RIGHT).template().orElseThrow();

        assertThat(template.subject()).isEqualTo("We return it");
        assertThat(template.render(new Values()
                        .put(Placeholder.PATIENT, "Enid Marl")
                        .put(Placeholder.PHONE, "01632 960100")
                        .put(Placeholder.WORDS, List.of("one", "two"))))
                .containsExactly(
                        Passage.paragraph("Thank you for Enid Marl. Call 01632 960100."),
                        Passage.list("These are the reasons:", List.of("one", "two")));
        assertThat(template.render(new Values().put(Placeholder.PATIENT, "Enid Marl")))
                .containsExactly(
                        Passage.paragraph("Thank you for Enid Marl. Write to us."),
                        Passage.paragraph("There is no reason."));
    }

    @Test
    void aValueIsNeverReadAsAPlaceholderAListOrAParagraph() {
        var template = read(RIGHT).template().orElseThrow();

        assertThat(template.render(new Values()
                        .put(Placeholder.PATIENT, "- {{phone}} > {{#words}}")
                        .put(Placeholder.WORDS, List.of("{{item}}", "# no remark", "- dash"))))
                .containsExactly(
                        Passage.paragraph("Thank you for - {{phone}} > {{#words}}. Write to us."),
                        Passage.list("These are the reasons:", List.of("{{item}}", "# no remark", "- dash")));
    }

    /** Each of these would print nonsense, or nothing; line and remedy are told. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    Hello {{patiant}}.                       | This letter knows no {{patiant}}. It knows {{patient}}
                    On {{grades}} and {{words}}.             | This letter knows no {{grades}}
                    Hello {{patient.                         | Braces are open here
                    Hello patient}}.                         | Braces are open here
                    Hello {{patient}}. {{words}}             | {{words}} is a list. Write {{#words}}
                    Call {{phone}}.                          | {{phone}} is not always known. Put what needs it between {{#phone}}
                    Hello {{#phone}}call {{phone}}.          | The block {{#phone}} begins in the midst of this line and must end in it
                    Hello {{/phone}}.                        | {{/phone}} closes a block that was not opened in this line
                    {{#phone}}call {{phone}}{{/words}}       | {{/words}} closes another block than {{#phone}}
                    {{#phone}}a {{^phone}}b{{/phone}}        | A block cannot stand within another: {{#phone}} is still open
                    Hello {{#words}}- {{item}}{{/words}}     | {{#words}} is a list, so its block has lines of its own
                    {{#patient}}Hello.{{/patient}}           | {{patient}} is always known
                    Hello {{item}}.                          | {{item}} stands for an entry of a list
                    {{^phone}}Call {{phone}}.{{/phone}}      | {{phone}} is not always known
                    {{/words}}                               | {{/words}} closes a block that was never opened
                    - a list without a lead                  | A list begins with a sentence that leads to it
                    """)
    void aBadLineIsRefusedWithItsNumberAndWhatToDo(String line, String told) {
        var reading = read(RIGHT + "\n" + line + "\n");

        assertThat(reading.template()).isEmpty();
        assertThat(reading.problems()).anySatisfy(problem -> {
            assertThat(problem.line()).isEqualTo(RIGHT.lines().toList().size() + 2);
            assertThat(problem.what()).contains(told);
            assertThat(problem.asText()).startsWith("returned.test.txt, line ");
        });
    }

    @Test
    void anInvisibleCharacterIsRefused() {
        assertThat(told(RIGHT + "Hello\u202E there.")).contains("a character that nobody can see");
    }

    @Test
    void aBlockThatIsNeverClosedIsToldAtItsBeginning() {
        var reading = read("Subject: x\n\n{{patient}}\n{{#words}}\nlead\n- {{item}}\n");

        assertThat(reading.problems())
                .singleElement()
                .satisfies(
                        problem -> assertThat(problem.asText())
                                .isEqualTo(
                                        "returned.test.txt, line 4: The block {{#words}} is never closed. End it with {{/words}}."));
    }

    @Test
    void aLoopWithinALoopIsRefusedOnce() {
        var reading = read("""
                Subject: x
                {{patient}}
                {{#words}}
                lead
                - {{item}}
                {{#words}}
                - {{item}}
                {{/words}}
                {{/words}}
                """);

        assertThat(reading.problems())
                .singleElement()
                .satisfies(problem -> assertThat(problem.asText())
                        .isEqualTo(
                                "returned.test.txt, line 6: A block cannot stand within another: {{#words}} of line 3"
                                        + " is still open. Close it first."));
    }

    @Test
    void aListThatShowsNoEntryIsRefused() {
        assertThat(told("Subject: x\n{{patient}}\n{{#words}}\nlead\n{{/words}}"))
                .contains("line 3: The list {{#words}} never shows its entries");
    }

    @Test
    void anEntryOfAListThatIsNoListIsRefused() {
        assertThat(told("Subject: x\n{{patient}}\n{{#words}}\n{{item}}\n{{/words}}"))
                .contains("line 4: The line with {{item}} begins with “- ” for a list");
    }

    @Test
    void aSubjectIsNeededAndHoldsNoPlaceholderSinceItIsReadOnTheOutside() {
        assertThat(told("Hello {{patient}}.")).contains("line 1: The first line says what the letter is about");
        assertThat(told("")).contains("The first line says what the letter is about");
        assertThat(told("Subject: {{patient}}\n")).contains("line 1: The subject stands on the outside");
    }

    @Test
    void aLetterThatLeavesOutWhatItIsForIsRefused() {
        assertThat(told("Subject: x\n\nHello {{patient}}.")).contains("It never says {{words}}");
    }

    @Test
    void aTextOfBookLengthIsRefused() {
        assertThat(told("Subject: x\n" + "x".repeat(6000))).contains("a letter has room for 6000");
    }

    @Test
    void theShippedWordsStandInEveryLanguageForEveryKind() {
        var shipped = ShippedWordings.load();

        assertThat(shipped.languages()).extracting(Language::tag).containsExactly("en-GB", "es");
        for (var language : shipped.languages()) {
            for (var kind : LetterKind.values()) {
                assertThat(shipped.of(kind, language.tag()).subject()).isNotBlank();
            }
        }
    }

    @Test
    void aMissingTranslationStopsTheStartWithItsFile() {
        assertRefused(
                file -> file.equals("done.es.txt") ? Optional.empty() : Vocabulary.resource(file),
                "done.es.txt: This file is missing: the letter “Done” has no words in Español");
        assertRefused(
                file -> file.equals("words.es.txt") ? Optional.empty() : Vocabulary.resource(file),
                "words.es.txt: This file is missing");
        assertRefused(
                file -> Vocabulary.resource(file)
                        .map(text -> file.equals("words.es.txt") ? text.replace("farewell = Atentamente", "") : text),
                "words.es.txt: “farewell” is not translated");
        assertRefused(
                file -> Vocabulary.resource(file)
                        .map(text -> file.equals("words.es.txt") ? text.replace("al {0}", "al teléfono") : text),
                "“caution.phone” has other blanks than in the first language: use [{0}]");
        assertRefused(
                file -> Vocabulary.resource(file)
                        .map(text -> file.equals("languages.txt") ? text + "\nfr Français" : text),
                "triaged.fr.txt: This file is missing");
        assertRefused(
                file -> Vocabulary.resource(file)
                        .map(text -> file.equals("booked.es.txt") ? text.replace("{{day}}", "{{dia}}") : text),
                "booked.es.txt, line 3: This letter knows no {{dia}}");
        assertRefused(_ -> Optional.empty(), "languages.txt: It names no language");
    }

    @Test
    void aBadLineOfTheVocabularyIsToldWithItsNumber() {
        assertThatThrownBy(() -> Vocabulary.read("words.xx.txt", "en", "a = b\nc: d"))
                .hasMessage("words.xx.txt, line 2: Write “key = words”.");
        assertThatThrownBy(() -> Vocabulary.read("words.xx.txt", "en", "a = b\n\na = c"))
                .hasMessageStartingWith("words.xx.txt, line 3: This key stands in a line above already.");
        assertThatThrownBy(() -> Vocabulary.of("en-GB").say("nowhere")).hasMessageContaining("does not say nowhere");
    }

    @Test
    void aValueThatLooksLikeABlankStaysAsItIs() {
        assertThat(Vocabulary.of("en-GB").say("regarding.born", "{1} $1", "x")).isEqualTo("{1} $1, born x");
    }

    private static void assertRefused(Function<String, Optional<String>> files, String told) {
        assertThatThrownBy(() -> ShippedWordings.read(files))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining(told);
    }

    private static String told(String text) {
        return String.join(
                "\n", read(text).problems().stream().map(WordingProblem::asText).toList());
    }

    private static TemplateReader.Reading read(String text) {
        return TemplateReader.read("returned.test.txt", LetterKind.RETURNED, text);
    }
}
