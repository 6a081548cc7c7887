package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.booking.StepKind;
import limbqueue.letter.Parts.Passage;
import limbqueue.referral.ReferralState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Letters to patients can be read by a patient, by the formulas named at {@link Readability}. */
class ReadabilityTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 9);

    /** Seventh grade: "fairly easy" by Flesch. */
    private static final double EASE = 70;

    /** Health material for patients is to be of the sixth to seventh grade; common practice, no source looked up. */
    private static final double GRADE = 7;

    /** "Algo fácil", sixth grade, by Fernández Huerta's table. */
    private static final double LECTURABILIDAD = 70;

    /** Two worked examples of the formula that its npm package "flesch" 1.0.0 prints in its README, with its counts. */
    @Test
    void readingEaseIsAsWorkedOutElsewhere() {
        assertThat(new Readability(1, 6, 6).fleschReadingEase()).isCloseTo(116.145, within(0.0005));
        assertThat(new Readability(1, 13, 26).fleschReadingEase()).isCloseTo(24.44, within(0.0005));
        assertThat(Readability.english(List.of("The cat sat on the mat."))).isEqualTo(new Readability(1, 6, 6));
    }

    @ParameterizedTest
    @CsvSource({
        "mat, 1",
        "please, 1",
        "people, 2",
        "medicine, 3",
        "hospital, 3",
        "appointment, 3",
        "called, 1",
        "wanted, 2",
        "clothes, 1",
        "doctors, 2",
        "letter, 2",
        "take, 1",
        "nearest, 2",
        "awake, 2",
        "visit, 2",
        "pause, 1",
        "table, 2"
    })
    void englishSyllablesAreCountedAsSpoken(String word, int syllables) {
        assertThat(Readability.englishSyllables(word)).isEqualTo(syllables);
    }

    /** By the rules of diptongo and hiato of the Ortografía de la lengua española (2010); the words from memory. */
    @ParameterizedTest
    @CsvSource({
        "hospital, 3", "día, 2", "pie, 1", "ciudad, 2", "leer, 2", "aéreo, 4", "guitarra, 3", "quince, 2", "cigüeña, 3",
                "muy, 1",
        "frío, 2", "pálido, 3", "cuando, 2", "traiga, 2", "medicamentos, 5", "oír, 2", "hacia, 2", "hacía, 3", "ley, 1",
                "y, 1"
    })
    void spanishSyllablesAreCountedByTheRules(String word, int syllables) {
        assertThat(Readability.spanishSyllables(word)).isEqualTo(syllables);
    }

    @ParameterizedTest
    @EnumSource(StepKind.class)
    void patientsLettersInEnglishAreFairlyEasy(StepKind step) {
        for (var letter : patients("en-GB", step)) {
            var readability = Readability.english(passages(letter));
            assertThat(readability.words()).isGreaterThan(60);
            assertThat(readability.fleschReadingEase())
                    .as("%s %s", letter.kind(), step)
                    .isGreaterThan(EASE);
            assertThat(readability.fleschKincaidGrade())
                    .as("%s %s", letter.kind(), step)
                    .isLessThan(GRADE);
        }
    }

    @ParameterizedTest
    @EnumSource(StepKind.class)
    void patientsLettersInSpanishAreFairlyEasy(StepKind step) {
        for (var letter : patients("es", step)) {
            var readability = Readability.spanish(passages(letter));
            assertThat(readability.words()).isGreaterThan(60);
            assertThat(readability.fernandezHuerta())
                    .as("%s %s", letter.kind(), step)
                    .isGreaterThan(LECTURABILIDAD);
        }
    }

    /** Else the measure would let anything pass. */
    @Test
    void aTextForSpecialistsIsNotEasy() {
        var hard =
                "Revascularisation of the femoropopliteal segment necessitates preprocedural evaluation of renal function,"
                        + " particularly in individuals receiving potentially nephrotoxic medication.";
        assertThat(Readability.english(List.of(hard)).fleschReadingEase()).isLessThan(30);
        assertThat(Readability.english(List.of(hard)).fleschKincaidGrade()).isGreaterThan(12);
        assertThat(Readability.spanish(
                                List.of(
                                        "La revascularización femoropoplítea requiere una evaluación"
                                                + " preoperatoria de la función renal en personas con medicación potencialmente nefrotóxica."))
                        .fernandezHuerta())
                .isLessThan(50);
    }

    private static List<WrittenLetter> patients(String language, StepKind step) {
        return Stream.of(LetterKind.values())
                .filter(LetterKind::toPatient)
                .map(kind -> Samples.writer(language)
                        .visit(
                                kind,
                                Samples.referral(ReferralState.APPROVED),
                                Samples.document(),
                                DAY,
                                new Visit(step, DAY.atTime(8, 30), "Room 2")))
                .toList();
    }

    private static List<String> passages(WrittenLetter letter) {
        return letter.parts().body().stream()
                .flatMap(passage -> Stream.concat(
                        Optional.of(passage).map(Passage::text).filter(text -> !text.isBlank()).stream(),
                        passage.items().stream()))
                .toList();
    }
}
