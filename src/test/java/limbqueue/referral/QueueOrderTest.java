package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import limbqueue.document.Draft;
import limbqueue.referral.ReferralLines.Placed;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/** Who stands before whom in the queue (common practice, no source). */
class QueueOrderTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

    @Test
    void tierThenTargetDateThenWaitingThenGettingWorseThenWhoCameFirst() {
        var order = List.of(
                placed(9, Tier.SAME_DAY, Optional.of(DAY), DAY, false),
                placed(8, Tier.WITHIN_14_DAYS, Optional.of(DAY.plusDays(3)), DAY, false),
                placed(7, Tier.WITHIN_14_DAYS, Optional.of(DAY.plusDays(14)), DAY.minusDays(60), false),
                placed(6, Tier.WITHIN_14_DAYS, Optional.of(DAY.plusDays(14)), DAY, true),
                placed(3, Tier.WITHIN_14_DAYS, Optional.of(DAY.plusDays(14)), DAY, false),
                placed(5, Tier.WITHIN_14_DAYS, Optional.of(DAY.plusDays(14)), DAY, false),
                placed(1, Tier.WITHIN_6_WEEKS, Optional.of(DAY.minusDays(90)), DAY.minusDays(200), true),
                placed(2, Tier.ADVICE_ONLY, Optional.empty(), DAY.minusDays(300), true));
        var random = new Random(6);
        for (var shuffled = 0; shuffled < 50; shuffled++) {
            var mixed = new ArrayList<>(order);
            Collections.shuffle(mixed, random);
            mixed.sort(ReferralLines.MOST_URGENT_FIRST);
            assertThat(mixed).isEqualTo(order);
        }
    }

    @Test
    void whatIsSaidToGetWorseIsAWoundThatSpreadsOrWalkingThatWorsens() {
        assertThat(worsening("""
                {"legs": {"left": {"wound": {"spreading": true}}, "right": {"claudication": {"present": true, "course": "worse"}}}}""")).containsExactly("left leg: wound spreading", "right leg: walking getting worse");
        assertThat(worsening("""
                {"legs": {"left": {"wound": {"spreading": false}}, "right": {"claudication": {"present": true, "course": "stable"}}}}""")).isEmpty();
        assertThat(worsening("""
                {"asked": {"priority": "asap", "expedite": true}}""")).isEmpty();
    }

    private static List<String> worsening(String document) {
        return Worsening.of(Draft.of(document).read(DAY).document());
    }

    private static Placed placed(long id, Tier tier, Optional<LocalDate> target, LocalDate waiting, boolean worsening) {
        return new Placed(
                new ReferralLine(
                        id,
                        "LQ-" + id,
                        ReferralState.QUEUED,
                        "",
                        Optional.empty(),
                        "",
                        DAY,
                        tier,
                        Optional.empty(),
                        target,
                        "",
                        0,
                        Optional.empty(),
                        0,
                        List.of(),
                        Optional.empty(),
                        ""),
                waiting,
                worsening);
    }
}
