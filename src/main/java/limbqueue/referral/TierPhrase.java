package limbqueue.referral;

import limbqueue.triage.Policy;
import limbqueue.triage.Tier;

/** How a tier is called in a sentence, with the days that the practice's policy gives it. */
public final class TierPhrase {

    private TierPhrase() {}

    /** As in "to be seen <em>within 14 days</em>": {@code the same day}, {@code within 6 weeks}, {@code advice only}. */
    public static String of(Tier tier, Policy policy) {
        var days = policy.days().get(tier);
        if (days == null) {
            return "advice only";
        }
        if (days == 0) {
            return "the same day";
        }
        if (days >= 21 && days % 7 == 0) {
            return "within " + days / 7 + " weeks";
        }
        return days == 1 ? "within 1 day" : "within " + days + " days";
    }
}
