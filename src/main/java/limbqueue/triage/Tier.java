package limbqueue.triage;

/** How soon a referral must be dealt with, most urgent first. The days of each tier are policy; the order is not. */
public enum Tier {
    SAME_DAY,
    WITHIN_5_DAYS,
    WITHIN_14_DAYS,
    WITHIN_6_WEEKS,
    WITHIN_18_WEEKS,
    ADVICE_ONLY;

    /** Whether this tier is more urgent than {@code other}. */
    public boolean moreUrgentThan(Tier other) {
        return compareTo(other) < 0;
    }

    /** The more urgent of this tier and {@code other}. */
    public Tier orMoreUrgent(Tier other) {
        return other.moreUrgentThan(this) ? other : this;
    }
}
