package limbqueue.booking;

import java.time.LocalDate;
import java.time.LocalDateTime;

/**
 * A time in which a step cannot take place, whatever room there is.
 *
 * @param from on the clock of the place
 * @param until the first moment at which the step can take place again
 * @param why what is in the way, as the end of "It cannot be then: "
 */
public record Barred(LocalDateTime from, LocalDateTime until, String why) {

    /** The days from {@code first} to {@code last}, both included. */
    public static Barred days(LocalDate first, LocalDate last, String why) {
        return new Barred(first.atStartOfDay(), last.plusDays(1).atStartOfDay(), why);
    }

    /** Everything before {@code day}, on which the patient can come at the soonest when told today; at short notice sooner. */
    static Barred untilTold(LocalDate day) {
        return before(day, "the patient cannot be told in time to come before %s".formatted(day));
    }

    /** Whether it is there only because a patient has to be told in time. */
    public boolean untilTold() {
        return equals(untilTold(until.toLocalDate()));
    }

    /** Everything before {@code day}. */
    public static Barred before(LocalDate day, String why) {
        return before(day.atStartOfDay(), why);
    }

    /** Everything before {@code time}. */
    public static Barred before(LocalDateTime time, String why) {
        return new Barred(LocalDateTime.MIN, time, why);
    }

    /** Everything after {@code day}. */
    public static Barred after(LocalDate day, String why) {
        return new Barred(day.plusDays(1).atStartOfDay(), LocalDateTime.MAX, why);
    }

    /** Whether a part of {@code session} falls into it. */
    public boolean bars(Session session) {
        return session.start().isBefore(until) && from.isBefore(session.end());
    }
}
