package limbqueue.referral.ui;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limbqueue.referral.ReferralLine;
import limbqueue.triage.Tier;

/** Which referral opens after a decision. */
final class NextInQueue {

    private NextInQueue() {}

    /**
     * A same-day case if there is one; else the one that stood behind the referral decided, so that a physician who works
     * down the queue is not thrown back to those left for later; else the first.
     *
     * @param before the ids of the queue before the decision, in its order
     * @param now the queue after it
     */
    static Optional<ReferralLine> after(long decided, List<Long> before, List<ReferralLine> now) {
        var waiting = now.stream().filter(line -> line.id() != decided).toList();
        var sameDay = waiting.stream()
                .filter(line -> line.proposedTier() == Tier.SAME_DAY)
                .findFirst();
        if (sameDay.isPresent()) {
            return sameDay;
        }
        Set<Long> behind = before.stream().skip(before.indexOf(decided) + 1L).collect(Collectors.toUnmodifiableSet());
        return waiting.stream()
                .filter(line -> behind.contains(line.id()))
                .findFirst()
                .or(() -> waiting.stream().findFirst());
    }
}
