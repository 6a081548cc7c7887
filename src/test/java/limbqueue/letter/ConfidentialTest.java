package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.document.Draft;
import limbqueue.letter.Confidential.Sources;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a person may not add to a letter. All people are invented. */
class ConfidentialTest {

    private static final String BEFORE = "Thank you for Enid Marl. This was decided by Dr Tomas Reyk, a physician.";
    private static final List<String> STAFF =
            List.of("Dr Tomas Reyk", "Dr Imogen Tarrant", "Wren Halloway", "Front desk");

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Please bring the list of medicines.",
                "The clinic moved to the ground floor; the entrance is in Weir Lane.",
                "Thank you for Enid Marl."
            })
    void plainWordsAreTakenAsTheyAre(String added) {
        assertThat(found(BEFORE + " " + added)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "An undisclosed procedure may have been tried.",
                "There may have been a FAILED  attempt.",
                "This is a red-flag.",
                "We suspect that somebody tried it before."
            })
    void aSuspicionIsRefused(String added) {
        assertThat(found(BEFORE + " " + added)).singleElement().asString().contains("says a suspicion");
    }

    @Test
    void inASpanishLetterASpanishSuspicionIsRefusedToo() {
        assertThat(Confidential.in(
                        "Gracias.", "Gracias. Hubo un intento fallido.", "es", sources(List.of(), List.of())))
                .singleElement()
                .asString()
                .contains("“intento fallido”");
    }

    @Test
    void namesOfStaffAndOfOtherPatientsAreRefusedButWhoDecidedIsNot() {
        assertThat(found(BEFORE + " Ask dr. Imogen Tarrant."))
                .singleElement()
                .asString()
                .startsWith("Dr Imogen Tarrant");
        assertThat(found(BEFORE + " Ask Dr Tarrant."))
                .singleElement()
                .asString()
                .startsWith("Dr Imogen Tarrant");
        assertThat(found(BEFORE + " Ask Wren Halloway."))
                .singleElement()
                .asString()
                .contains("works here");
        assertThat(found(BEFORE + " Dr Tomas Reyk will call.")).isEmpty();
        assertThat(Confidential.in(
                        BEFORE, BEFORE + " As with Zoë Quill.", "en-GB", sources(List.of(), List.of("zoe quill"))))
                .singleElement()
                .asString()
                .contains("another patient");
    }

    @Test
    void aNoteForTheRecordIsRefusedWhereItIsCopied() {
        var note = "Telephoned the ward: the daughter says he does not take his tablets at all.";

        assertThat(Confidential.in(
                        BEFORE,
                        BEFORE + " The daughter says he does not take any pill.",
                        "en-GB",
                        sources(List.of(note, "Old wire left."), List.of())))
                .containsExactly(
                        "“the daughter says he does not” is copied from a note that is kept for the record. Leave it out.");
        assertThat(Confidential.in(
                        BEFORE,
                        BEFORE + " An old wire left in the leg.",
                        "en-GB",
                        sources(List.of("Old wire left."), List.of())))
                .hasSize(1);
        assertThat(Confidential.in(
                        BEFORE, BEFORE + " His daughter may come.", "en-GB", sources(List.of(note), List.of())))
                .isEmpty();
    }

    @Test
    void everySentenceThatTriageWroteForThePhysicianIsRefused() throws IOException {
        var sentences = 0;
        try (var files = Files.newDirectoryStream(Path.of("demo-referrals"), "*.referral.json")) {
            for (var file : files) {
                var document =
                        Draft.of(Files.readString(file)).read(Samples.DECIDED).document();
                var proposal = Triage.triage(document, Policy.standard(), Samples.DECIDED);
                for (var sentence : sentences(proposal)) {
                    assertThat(Confidential.in(
                                    BEFORE,
                                    BEFORE + "\n" + sentence,
                                    "en-GB",
                                    new Sources(document, proposal, List.of(), List.of(), List.of())))
                            .as(sentence)
                            .isNotEmpty();
                    sentences++;
                }
            }
        }
        assertThat(sentences).isGreaterThan(100);
    }

    private static List<String> sentences(TriageResult proposal) {
        return Stream.concat(
                        proposal.redFlags().stream().map(TriageResult.RedFlag::text),
                        proposal.reasons().stream().map(TriageResult.Reason::text))
                .filter(sentence -> sentence.length() > 25)
                .toList();
    }

    private static List<String> found(String after) {
        return Confidential.in(BEFORE, after, "en-GB", sources(List.of(), List.of()));
    }

    private static Sources sources(List<String> notes, List<String> patients) {
        var document = Samples.document();
        return new Sources(
                document, Triage.triage(document, Policy.standard(), Samples.DECIDED), notes, STAFF, patients);
    }
}
