package limbqueue.booking;

import java.time.LocalDate;
import java.util.List;
import limbqueue.triage.Tier;

/**
 * A referral that waits for its places.
 *
 * @param reference of the referral, one of its kind
 * @param patient a key that two referrals share exactly when they are of one patient
 * @param target the day by which its last step should be done
 * @param steps at least one, in their order
 */
public record WaitingCase(String reference, String patient, Tier tier, LocalDate target, List<Step> steps) {

    /** @throws IllegalArgumentException if there is no step, or nothing was promised */
    public WaitingCase {
        if (steps.isEmpty() || tier == Tier.ADVICE_ONLY) {
            throw new IllegalArgumentException("%s waits for no place".formatted(reference));
        }
        steps = List.copyOf(steps);
    }
}
