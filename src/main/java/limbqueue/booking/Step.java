package limbqueue.booking;

import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A step on a referral's path, still to be placed in a session.
 *
 * @param needs what the session must have
 * @param barred when it cannot take place
 * @param daysAfterPrevious days from the step before until its result is there, 0 or more; 0 lets both be on one day
 * @param countsDays for how many days after it the last step of the path may still rest on its result; empty where that does
 *     not run out
 * @param told id of the session for which the patient has been told to come
 */
public record Step(
        StepKind kind,
        StepMinutes minutes,
        Set<Capability> needs,
        List<Barred> barred,
        int daysAfterPrevious,
        Optional<Integer> countsDays,
        Optional<String> told) {

    public Step {
        needs = Set.copyOf(needs);
        barred = List.copyOf(barred);
        if (daysAfterPrevious < 0) {
            throw new IllegalArgumentException("a step cannot come days before the one that it waits for");
        }
    }
}
