package limbqueue.triage;

/** How soon a referral must be dealt with, most urgent first. The days of each tier are policy; the order is not. */
public enum Tier {
    SAME_DAY("Same day"),
    WITHIN_5_DAYS("Within 5 days"),
    WITHIN_14_DAYS("Within 14 days"),
    WITHIN_6_WEEKS("Within 6 weeks"),
    WITHIN_18_WEEKS("Within 18 weeks"),
    ADVICE_ONLY("Advice only");

    private final String words;

    Tier(String words) {
        this.words = words;
    }

    /** What it is called at the beginning of a line. */
    public String words() {
        return words;
    }

    /** Whether this tier is more urgent than {@code other}. */
    public boolean moreUrgentThan(Tier other) {
        return compareTo(other) < 0;
    }

    /** The more urgent of this tier and {@code other}. */
    public Tier orMoreUrgent(Tier other) {
        return other.moreUrgentThan(this) ? other : this;
    }
}
