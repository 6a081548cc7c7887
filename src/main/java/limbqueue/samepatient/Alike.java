package limbqueue.samepatient;

import java.time.LocalDate;
import limbqueue.referral.ReferralState;

/** A referral that may be of the same person. */
public record Alike(
        long id, String reference, ReferralState state, LocalDate received, PersonFacts person, Likeness likeness) {}
