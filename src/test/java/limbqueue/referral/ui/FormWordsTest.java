package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.json.JsonMapper;

class FormWordsTest {

    @ParameterizedTest
    @CsvSource({
        "legs.right.abi, Leg pressures, Right leg · ABI as reported",
        "legs.left.wound.ulcer, Wound, Left leg · Ulcer",
        "armPressures.left, Arm pressures, Left arm · systolic",
        "patient.family, Patient, Family name",
        "patient.identifiers[0].value, Patient, Number",
        "of.no.form, Other, of.no.form"
    })
    void aFieldIsCalledAsOnTheForm(String path, String part, String label) {
        assertThat(FormWords.partOf(path).title()).isEqualTo(part);
        assertThat(FormWords.label(path)).isEqualTo(label);
    }

    @Test
    void entriesHaveANameAndValuesTheirWords() {
        assertThat(FormWords.entry("medicines")).isEqualTo("Medicine");
        assertThat(FormWords.entry("lesions")).isEqualTo("Lesion");
        var json = JsonMapper.builder().build();
        assertThat(FormWords.value("legs.left.restPain.present", json.readTree("true")))
                .isEqualTo("yes");
        assertThat(FormWords.partOf("medicines[3].name").place())
                .isGreaterThan(FormWords.partOf("patient.family").place());
    }
}
