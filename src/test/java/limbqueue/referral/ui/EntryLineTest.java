package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class EntryLineTest {

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            clopidogrel 75 mg                    | clopidogrel            | 75 mg
            insulin glargine 18 units at night   | insulin glargine       | 18 units at night
            vitamin B12 1 mg                     | vitamin B12            | 1 mg
            digoxin, 0.125 mg                    | digoxin                | 0.125 mg
            digoxin .125 mg                      | digoxin                | .125 mg
            """)
    void aDoseBeginsWithTheFirstFigureThatStandsByItself(String line, String name, String dose) {
        assertThat(EntryLine.read("medicines", line).orElseThrow().values())
                .isEqualTo(Map.of("name", name, "dose", dose));
    }

    @Test
    void aMedicineWithoutADoseHasNone() {
        assertThat(EntryLine.read("medicines", "  apixaban ").orElseThrow().values())
                .isEqualTo(Map.of("name", "apixaban"));
        assertThat(EntryLine.read("medicines", "75 mg").orElseThrow().values()).isEqualTo(Map.of("name", "75 mg"));
    }

    @Test
    void anAllergyEndsWithHowSevereItIsIfThatIsSaid() {
        assertThat(EntryLine.read("allergies", "iodine contrast, Severe")
                        .orElseThrow()
                        .values())
                .isEqualTo(Map.of("to", "iodine contrast", "reaction", "severe"));
        assertThat(EntryLine.read("allergies", "sticking plaster").orElseThrow().values())
                .isEqualTo(Map.of("to", "sticking plaster"));
        assertThat(EntryLine.read("allergies", "severe").orElseThrow().values()).isEqualTo(Map.of("to", "severe"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"none", "NONE", " no ", "nil", "n", "-", "0"})
    void noneIsAnAnswer(String line) {
        assertThat(EntryLine.read("medicines", line).orElseThrow().isNone()).isTrue();
        assertThat(EntryLine.read("allergies", line).orElseThrow().isNone()).isTrue();
    }

    @Test
    void nothingTypedIsNoAnswer() {
        assertThat(EntryLine.read("medicines", "  ")).isEmpty();
    }
}
