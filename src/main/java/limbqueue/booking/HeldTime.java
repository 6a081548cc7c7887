package limbqueue.booking;

import java.time.LocalDate;
import limbqueue.triage.Tier;

/**
 * How much of a session is kept for urgent cases that have not come yet, and until when. Whoever is promised the same day or 5
 * days may use it at any time, everybody else only once it is released.
 *
 * @param minutes 0 or more
 * @param releaseDays days before the session at the end of which what is still free of it is given to others, 0 or more; 0
 *     holds it to the last
 */
public record HeldTime(int minutes, int releaseDays) {

    /** Long enough to tell somebody of the place that becomes free (common practice, no source). */
    public static final int USUAL_RELEASE_DAYS = 2;

    /** Further ahead nothing would be held. */
    public static final int MOST_RELEASE_DAYS = 28;

    /** Nothing is kept. */
    public static final HeldTime NONE = new HeldTime(0, USUAL_RELEASE_DAYS);

    /** @throws IllegalArgumentException if minutes or days are out of range */
    public HeldTime {
        if (minutes < 0 || releaseDays < 0 || releaseDays > MOST_RELEASE_DAYS) {
            throw new IllegalArgumentException("%s minutes held until %s days before".formatted(minutes, releaseDays));
        }
    }

    /** Whether time is held for cases of {@code tier}. */
    public static boolean isFor(Tier tier) {
        return switch (tier) {
            case SAME_DAY, WITHIN_5_DAYS -> true;
            case WITHIN_14_DAYS, WITHIN_6_WEEKS, WITHIN_18_WEEKS, ADVICE_ONLY -> false;
        };
    }

    /** The last day on which it is held of a session on {@code date}. */
    public LocalDate lastDay(LocalDate date) {
        return date.minusDays(releaseDays);
    }

    /** Minutes that are kept on {@code day} of a session on {@code date}: all of them, or none any more. */
    public int keptOn(LocalDate day, LocalDate date) {
        return day.isAfter(lastDay(date)) ? 0 : minutes;
    }

    /** The same, of a session that has no more than {@code most} minutes. */
    HeldTime atMost(int most) {
        return minutes <= most ? this : new HeldTime(most, releaseDays);
    }
}
