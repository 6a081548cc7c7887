package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.DecisionRecord;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;
import org.junit.jupiter.api.Test;

class DecisionWordsTest {

    @Test
    void anApprovalSaysTheTierAndItsDate() {
        assertThat(DecisionWords.of(
                        decision(DecisionKind.APPROVED, Tier.WITHIN_14_DAYS, Tier.WITHIN_14_DAYS, Map.of())))
                .isEqualTo("Approved: within 14 days, by 16 Mar 2026");
    }

    @Test
    void aChangeSaysWhatItReplacesAndEveryCategoryChanged() {
        assertThat(DecisionWords.of(decision(
                        DecisionKind.CHANGED,
                        Tier.WITHIN_18_WEEKS,
                        Tier.WITHIN_14_DAYS,
                        Map.of(Side.LEFT, Rutherford.CHRONIC_4, Side.RIGHT, Rutherford.ACUTE_IIA))))
                .isEqualTo("Changed and approved: within 14 days, by 16 Mar 2026 instead of within 18 weeks;"
                        + " Rutherford right acute IIa; Rutherford left 4");
    }

    @Test
    void aChangeOfCategoryAloneKeepsTheTier() {
        assertThat(DecisionWords.of(decision(
                        DecisionKind.CHANGED,
                        Tier.WITHIN_14_DAYS,
                        Tier.WITHIN_14_DAYS,
                        Map.of(Side.LEFT, Rutherford.CHRONIC_4))))
                .isEqualTo("Changed and approved: within 14 days, by 16 Mar 2026; Rutherford left 4");
    }

    @Test
    void whatIsNoPlaceInTheQueueNamesNoTier() {
        assertThat(DecisionWords.of(decision(DecisionKind.SENT_TO_HOSPITAL, Tier.SAME_DAY, Tier.SAME_DAY, Map.of())))
                .isEqualTo("Sent to hospital");
    }

    private static DecisionRecord decision(
            DecisionKind kind, Tier proposed, Tier decided, Map<Side, Rutherford> categories) {
        return new DecisionRecord(
                1,
                1,
                kind,
                "Dr Ines Hale",
                Instant.EPOCH,
                "standard-1",
                Optional.of("0123456789abcdef"),
                LocalDate.of(2026, 3, 2),
                "{}",
                "{}",
                proposed,
                decided,
                Optional.of(LocalDate.of(2026, 3, 16)),
                categories,
                "");
    }
}
