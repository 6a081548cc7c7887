package limbqueue.referral.ui;

import static limbqueue.triage.TriageResult.Rutherford.ACUTE_I;
import static limbqueue.triage.TriageResult.Rutherford.ACUTE_IIA;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_0;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_2;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_4;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_5;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_6;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.RutherfordGrade;
import org.junit.jupiter.api.Test;

class GradeWordsTest {

    @Test
    void aGradeThatIsCertainSaysNothingMore() {
        assertThat(GradeWords.possible(new RutherfordGrade(CHRONIC_5, List.of(CHRONIC_5))))
                .isEmpty();
    }

    @Test
    void neighboursAreJoinedToARange() {
        assertThat(GradeWords.possible(new RutherfordGrade(CHRONIC_5, List.of(CHRONIC_4, CHRONIC_5, CHRONIC_6))))
                .isEqualTo("could be 4 to 6");
        assertThat(GradeWords.possible(new RutherfordGrade(CHRONIC_5, List.of(CHRONIC_6, CHRONIC_5))))
                .isEqualTo("could be 5 or 6");
    }

    @Test
    void gapsAndBothScalesAreToldApart() {
        assertThat(GradeWords.possible(new RutherfordGrade(
                        CHRONIC_2, List.of(CHRONIC_0, CHRONIC_2, CHRONIC_4, CHRONIC_5, CHRONIC_6, ACUTE_I, ACUTE_IIA))))
                .isEqualTo("could be 0, 2, 4 to 6, or acute I or IIa");
    }

    @Test
    void fontaineGradesAreJoinedAsPrinted() {
        assertThat(GradeWords.possible(
                        new FontaineGrade(Fontaine.III, List.of(Fontaine.IIA, Fontaine.IIB, Fontaine.III))))
                .isEqualTo("could be IIa to III");
    }
}
