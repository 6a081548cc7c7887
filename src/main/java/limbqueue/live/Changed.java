package limbqueue.live;

import java.util.Collection;
import java.util.HashSet;
import java.util.Set;

/**
 * What changed, by number alone.
 *
 * @param referrals ids of the referrals of which something changed
 * @param everything whether anything may have changed: what concerns every referral did, or nobody could listen for a while
 */
public record Changed(Set<Long> referrals, boolean everything) {

    public Changed {
        referrals = Set.copyOf(referrals);
    }

    /** Stands in a notification for what concerns every referral. */
    private static final long EVERY_REFERRAL = 0;

    /** That anything may have changed. */
    public static Changed anything() {
        return new Changed(Set.of(), true);
    }

    static Changed of(Collection<Long> told) {
        var referrals = new HashSet<>(told);
        var everything = referrals.remove(EVERY_REFERRAL);
        return new Changed(referrals, everything);
    }

    /** This and {@code other} as one. */
    public Changed and(Changed other) {
        var both = new HashSet<>(referrals);
        both.addAll(other.referrals);
        return new Changed(both, everything || other.everything);
    }

    /** Whether something of this referral may have changed. */
    public boolean concerns(long referral) {
        return everything || referrals.contains(referral);
    }
}
