package limbqueue.referral.ui;

import static limbqueue.triage.TriageResult.Rutherford.ACUTE_I;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_4;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_5;
import static limbqueue.triage.TriageResult.Rutherford.CHRONIC_6;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.FontaineGrade;
import limbqueue.triage.TriageResult.LegResult;
import limbqueue.triage.TriageResult.RutherfordGrade;
import org.junit.jupiter.api.Test;

class GradeWordsTest {

    @Test
    void aGradeThatIsCertainSaysNothingMore() {
        assertThat(GradeWords.possible(new RutherfordGrade(CHRONIC_5, List.of(CHRONIC_5))))
                .isEmpty();
    }

    @Test
    void aGradeThatIsNotCertainSaysWhatItCouldBe() {
        assertThat(GradeWords.possible(
                        new RutherfordGrade(CHRONIC_5, List.of(CHRONIC_4, CHRONIC_5, CHRONIC_6, ACUTE_I))))
                .isEqualTo("could be 4 to 6 or acute I");
    }

    @Test
    void limbThreateningSaysTheOtherAnswerOnly() {
        assertThat(GradeWords.possible(leg(Answer.NO, Answer.YES, Answer.NO))).isEqualTo("could be yes");
        assertThat(GradeWords.possible(leg(Answer.NO, Answer.NO))).isEmpty();
    }

    private static LegResult leg(Answer answer, Answer... possible) {
        return new LegResult(
                Optional.empty(),
                Optional.empty(),
                new FontaineGrade(Fontaine.I, List.of(Fontaine.I)),
                new RutherfordGrade(CHRONIC_5, List.of(CHRONIC_5)),
                Optional.empty(),
                answer,
                List.of(possible),
                Tier.ADVICE_ONLY);
    }
}
