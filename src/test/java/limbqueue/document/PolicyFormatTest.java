package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import limbqueue.triage.Policy;
import org.junit.jupiter.api.Test;

/** The choice on metformin came later than the first policies, which say nothing of it. */
class PolicyFormatTest {

    private static PolicyFormat.PolicyReading read(String json) {
        return PolicyFormat.parse(new ByteArrayInputStream(json.getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void aPolicyThatSaysNothingOfMetforminGoesByTheDrugLabelAndIsWrittenAsBefore() {
        var written = PolicyFormat.write(Policy.standard()).toString();
        assertThat(written).doesNotContain("metformin");
        assertThat(read(written).policy()).contains(Policy.standard());
        assertThat(Policy.standard().metformin()).isEqualTo(Policy.Metformin.DRUG_LABEL);
    }

    @Test
    void theContrastManualIsWrittenAndRead() {
        var standard = Policy.standard();
        var manual = new Policy("manual", standard.days(), standard.validity(), Policy.Metformin.CONTRAST_MANUAL);
        var written = PolicyFormat.write(manual).toString();
        assertThat(written).contains("\"metformin\":\"contrastManual\"");
        assertThat(read(written).policy()).contains(manual);
    }

    @Test
    void theDrugLabelMayBeNamed() {
        var written = PolicyFormat.write(Policy.standard()).toString();
        var named = written.substring(0, written.length() - 1) + ",\"metformin\":\"drugLabel\"}";
        assertThat(read(named).policy()).contains(Policy.standard());
    }

    @Test
    void anotherTextIsRefused() {
        var written = PolicyFormat.write(Policy.standard()).toString();
        var wrong = written.substring(0, written.length() - 1) + ",\"metformin\":\"hearsay\"}";
        assertThat(read(wrong).policy()).isEmpty();
        assertThat(read(wrong).problems())
                .singleElement()
                .satisfies(problem -> assertThat(problem.path()).isEqualTo("metformin"));
    }
}
