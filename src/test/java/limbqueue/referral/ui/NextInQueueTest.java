package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

class NextInQueueTest {

    private static final ReferralLine FIRST = line(1, Tier.WITHIN_5_DAYS);
    private static final ReferralLine SECOND = line(2, Tier.WITHIN_14_DAYS);
    private static final ReferralLine THIRD = line(3, Tier.WITHIN_14_DAYS);
    private static final List<Long> BEFORE = List.of(1L, 2L, 3L);

    @Test
    void theOneBehindTheDecidedComesNext() {
        assertThat(NextInQueue.after(2, BEFORE, List.of(FIRST, THIRD))).contains(THIRD);
    }

    @Test
    void afterTheLastTheFirstLeftForLaterComes() {
        assertThat(NextInQueue.after(3, BEFORE, List.of(FIRST, SECOND))).contains(FIRST);
    }

    @Test
    void aSameDayCaseComesBeforeEverything() {
        var arrived = line(9, Tier.SAME_DAY);

        assertThat(NextInQueue.after(1, BEFORE, List.of(arrived, SECOND, THIRD)))
                .contains(arrived);
    }

    @Test
    void oneDecidedBySomebodyElseMeanwhileIsPassedOver() {
        assertThat(NextInQueue.after(1, BEFORE, List.of(THIRD))).contains(THIRD);
    }

    @Test
    void afterTheOnlyOneNothingComes() {
        assertThat(NextInQueue.after(1, List.of(1L), List.of())).isEmpty();
    }

    @Test
    void oneThatStoodInNoQueueIsFollowedByTheFirst() {
        assertThat(NextInQueue.after(7, BEFORE, List.of(FIRST, SECOND, THIRD))).contains(FIRST);
    }

    private static ReferralLine line(long id, Tier tier) {
        return new ReferralLine(
                id,
                "LQ-2026-000" + id,
                ReferralState.QUEUED,
                "Fenn, Ada",
                Optional.empty(),
                "",
                LocalDate.of(2026, 3, 2),
                tier,
                Optional.empty(),
                Optional.empty(),
                "",
                0,
                Optional.empty(),
                0,
                List.of(),
                Optional.of(Instant.EPOCH),
                "Cora Lund");
    }
}
