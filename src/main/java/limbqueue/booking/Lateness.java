package limbqueue.booking;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import limbqueue.triage.Tier;

/**
 * How late a case is, in the points of the level to which its tier belongs. A case without a place counts as if it came
 * {@value #UNPLACED_DAYS} days after the last day that is planned for, and a step that could have been prepared all the
 * same as {@value #UNPREPARED_DAYS} days more, so that a place is always better than none (common practice, no source).
 */
public final class Lateness {

    /** More than all days together by which cases are late, so that the number of broken promises comes first. */
    public static final long BROKEN_PROMISE = 10_000_000;

    private static final int UNPLACED_DAYS = 28;
    private static final int UNPREPARED_DAYS = 7;
    /** As the days promised, 126 to 42. */
    private static final int WEIGHT_OF_6_WEEKS = 3;

    private Lateness() {}

    /** The level at which lateness of {@code tier} is weighed. */
    public static PlanRule.Level levelOf(Tier tier) {
        return switch (tier) {
            case SAME_DAY, WITHIN_5_DAYS -> PlanRule.Level.PROMISES_OF_5_DAYS;
            case WITHIN_14_DAYS -> PlanRule.Level.PROMISES_OF_14_DAYS;
            case WITHIN_6_WEEKS, WITHIN_18_WEEKS, ADVICE_ONLY -> PlanRule.Level.LATENESS;
        };
    }

    /**
     * The points of the last step of a case.
     *
     * @param days by which it is late, 0 or more
     */
    public static long points(Tier tier, long days) {
        return days == 0 ? 0 : days * weight(tier) + (promised(tier) ? BROKEN_PROMISE : 0);
    }

    /**
     * The points of the last step of a case that has no place.
     *
     * @param lastDay the last day that is planned for
     */
    public static long unplaced(Tier tier, LocalDate target, LocalDate lastDay) {
        return points(tier, UNPLACED_DAYS + daysLate(target, lastDay));
    }

    /** The points of a step that has no place, before the last one. */
    public static long unprepared(Tier tier) {
        return UNPREPARED_DAYS * weight(tier);
    }

    /** Whole days by which {@code day} is later than {@code target}, 0 or more. */
    public static long daysLate(LocalDate target, LocalDate day) {
        return Math.max(0, ChronoUnit.DAYS.between(target, day));
    }

    private static boolean promised(Tier tier) {
        return levelOf(tier) != PlanRule.Level.LATENESS;
    }

    private static long weight(Tier tier) {
        return tier == Tier.WITHIN_6_WEEKS ? WEIGHT_OF_6_WEEKS : 1;
    }
}
