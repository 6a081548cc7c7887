package limbqueue.triage;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.triage.ReferralDocument.LabTest;
import limbqueue.triage.finding.Creatinine;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.finding.LatestLab;
import org.junit.jupiter.api.Test;

/** Which of several laboratory values counts (common practice, no source). */
class LatestOfSeveralTest {

    private static ReferralDocument labs(String... values) {
        var facts = new StringBuilder("patient.born=1956-01-01 patient.sex=male");
        for (var i = 0; i < values.length; i++) {
            for (var field : values[i].split(" ", -1)) {
                facts.append(" labs[").append(i).append("].").append(field);
            }
        }
        return Facts.of(facts.toString()).document();
    }

    private static int indexOfInr(String... values) {
        return LatestLab.of(labs(values), LabTest.INR).orElseThrow().index();
    }

    @Test
    void ofALaboratoryValueTheLaterDayCountsWhereverItStands() {
        assertThat(indexOfInr("test=inr value=3 taken=2026-01-02", "test=inr value=1 taken=2026-02-02"))
                .isEqualTo(1);
        assertThat(indexOfInr("test=inr value=1 taken=2026-02-02", "test=inr value=3 taken=2026-01-02"))
                .isEqualTo(0);
        assertThat(indexOfInr("test=inr value=3", "test=inr value=1 taken=2026-01-02"))
                .isEqualTo(1);
    }

    @Test
    void ofOneDayTheHighestCountsAndOfTwoThatAreAlikeTheFirst() {
        assertThat(indexOfInr("test=inr value=1 taken=2026-02-02", "test=inr value=3 taken=2026-02-02"))
                .isEqualTo(1);
        assertThat(indexOfInr("test=inr value=2 taken=2026-02-02", "test=inr value=2 taken=2026-02-02"))
                .isEqualTo(0);
    }

    @Test
    void anotherTestOrOneWithoutAValueDoesNotCount() {
        assertThat(indexOfInr("test=platelets value=9", "test=inr taken=2026-02-02", "test=inr value=2"))
                .isEqualTo(2);
        assertThat(LatestLab.of(labs("test=platelets value=9"), LabTest.INR)).isEmpty();
    }

    @Test
    void ofKidneyFunctionTheLatestCountsOfOneDayTheLowestAndOfTwoThatAreAlikeTheFirst() {
        assertThat(kidneys("test=egfr value=70 taken=2026-01-02", "test=egfr value=80 taken=2026-02-02"))
                .isEqualTo("labs[1].value");
        assertThat(kidneys("test=egfr value=70 taken=2026-02-02", "test=egfr value=60 taken=2026-02-02"))
                .isEqualTo("labs[1].value");
        assertThat(kidneys("test=egfr value=60 taken=2026-02-02", "test=egfr value=60 taken=2026-02-02"))
                .isEqualTo("labs[0].value");
        assertThat(KidneyFunction.latest(labs("test=inr value=2"), Facts.TODAY)).isEmpty();
    }

    private static String kidneys(String... values) {
        return KidneyFunction.latest(labs(values), Facts.TODAY).orElseThrow().evidence();
    }

    @Test
    void ofCreatinineTheLatestCountsAndOfOneDayTheHighest() {
        assertThat(creatinine(
                        "test=creatinine value=1.5 unit=mg/dL taken=2026-01-02",
                        "test=creatinine value=1.1 unit=mg/dL taken=2026-02-02"))
                .isEqualTo(1.1);
        assertThat(creatinine(
                        "test=creatinine value=1.1 unit=mg/dL taken=2026-02-02",
                        "test=creatinine value=1.5 unit=mg/dL taken=2026-02-02"))
                .isEqualTo(1.5);
        assertThat(Creatinine.latest(labs("test=egfr value=50"))).isEmpty();
    }

    private static double creatinine(String... values) {
        return Creatinine.latest(labs(values)).orElseThrow().mgPerDl();
    }
}
