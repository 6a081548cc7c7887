package limbqueue.chasing;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import limbqueue.triage.Tier;

/**
 * How many days the practice gives others to answer, and how often it calls patients who wait. What the product comes with is
 * common practice, no source.
 *
 * @param firstReply days from a request to the day on which its answer is due, 1 to 90
 * @param secondReply the same from a second request, 1 to 90
 * @param thirdReply the same from a third one, 1 to 90
 * @param callEvery days between two calls to a patient whose leg is threatened, 1 to 90; a tier without an entry is not called
 * @param lateWarning from how many days before its target date a referral counts as about to be late, 0 to 90
 */
public record ChasingDays(
        int firstReply, int secondReply, int thirdReply, Map<Tier, Integer> callEvery, int lateWarning) {

    private static final int MOST = 90;

    /** @throws IllegalArgumentException if a number is out of its range, or calls are given for a tier that has none */
    public ChasingDays {
        for (var days : new int[] {firstReply, secondReply, thirdReply}) {
            within(days, 1);
        }
        within(lateWarning, 0);
        callEvery.values().forEach(days -> within(days, 1));
        if (callEvery.containsKey(Tier.SAME_DAY) || callEvery.containsKey(Tier.ADVICE_ONLY)) {
            throw new IllegalArgumentException("Nobody waits who is sent to hospital today or gets advice only.");
        }
        callEvery = Map.copyOf(callEvery);
    }

    private static void within(int days, int least) {
        if (days < least || days > MOST) {
            throw new IllegalArgumentException("Days are a number from " + least + " to " + MOST + ".");
        }
    }

    /** The days for the answer to a request after which so many reminders were sent, 0 to 2. */
    public int reply(int reminders) {
        return switch (reminders) {
            case 0 -> firstReply;
            case 1 -> secondReply;
            case 2 -> thirdReply;
            default -> throw new IllegalArgumentException("two reminders at most, not " + reminders);
        };
    }

    public Optional<Integer> callEvery(Tier tier) {
        return Optional.ofNullable(callEvery.get(tier));
    }

    /** Calls by tier, most urgent first. */
    public Map<Tier, Integer> calls() {
        return callEvery.isEmpty() ? Map.of() : new EnumMap<>(callEvery);
    }
}
