package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.letter.Parts.Passage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BodyTextTest {

    @Test
    void passagesAreWrittenAsLinesAndReadBack() {
        var passages = List.of(
                Passage.paragraph("Thank you."),
                Passage.list("Please send:", List.of("the report", "the images")),
                Passage.quoted(List.of("Which medicines?", "Since when?")),
                Passage.paragraph("With thanks."));

        assertThat(BodyText.of(passages)).isEqualTo("""
                Thank you.

                Please send:
                - the report
                - the images

                > Which medicines?
                > Since when?

                With thanks.""");
        assertThat(BodyText.read(BodyText.of(passages))).isEqualTo(passages);
    }

    @Test
    void whatNobodySeesIsLeftOutAndNothingIsNothing() {
        assertThat(BodyText.read(" \n\n\t\n")).isEmpty();
        assertThat(BodyText.read("- \n> \n")).isEmpty();
        assertThat(BodyText.read("Two  lines\u0000\nof one\u200b paragraph.\r\n\r\n\r\nAnother."))
                .containsExactly(Passage.paragraph("Two lines of one paragraph."), Passage.paragraph("Another."));
    }

    /** Whatever is written by the shipped words can be edited: what is read back makes the same letter. */
    @ParameterizedTest
    @ValueSource(strings = {"en-GB", "es"})
    void everyLetterThatIsShippedReadsBackAsItIs(String language) {
        for (var letter : LettersOfEveryStepTest.everyLetter(Samples.writer(language), Samples.document())) {
            var body = letter.parts().body();
            var standing = letter.kind().standingPassages();
            var own = body.subList(0, body.size() - standing);

            assertThat(BodyText.read(BodyText.of(own))).isEqualTo(own);
            assertThat(body.getLast().kind()).as("what must not wait").isEqualTo(Parts.Kind.CAUTION);
            if (standing == 2) {
                assertThat(body.get(body.size() - 2).text())
                        .as("who decides, %s", letter.kind())
                        .containsAnyOf(
                                "Local protocol prevails",
                                "local protocol prevails",
                                "Prevalece el protocolo local",
                                "prevalece el protocolo local",
                                "This plan is a proposal",
                                "Este plan es una propuesta");
            }
        }
    }
}
