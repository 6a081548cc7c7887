package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;
import org.junit.jupiter.api.Test;

class TierWordsTest {

    @Test
    void threeOrMoreInARowAreSaidAsARange() {
        assertThat(TierWords.grades(List.of(Fontaine.values()))).isEqualTo("I to IV");
        assertThat(TierWords.stages(List.of(3, 4))).isEqualTo("3 or 4");
        assertThat(TierWords.stages(List.of(4, 1, 2))).isEqualTo("1, 2 or 4");
        assertThat(TierWords.possible(
                        List.of(Tier.ADVICE_ONLY, Tier.SAME_DAY, Tier.WITHIN_18_WEEKS, Tier.WITHIN_6_WEEKS)))
                .isEqualTo("same day or within 6 weeks to advice only");
    }

    @Test
    void aRangeDoesNotRunFromTheChronicIntoTheAcuteScale() {
        assertThat(TierWords.categories(List.of(Rutherford.values()))).isEqualTo("0 to 6 or acute I to acute III");
        assertThat(TierWords.categories(List.of(Rutherford.CHRONIC_6, Rutherford.ACUTE_I)))
                .isEqualTo("6 or acute I");
    }
}
