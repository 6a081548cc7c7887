package limbqueue.booking.solver;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import limbqueue.booking.Session;

/** A session as the solver sees it: itself and no other, however alike two may be. */
public final class Slot {

    static final long SECONDS_OF_A_DAY = 24 * 60 * 60L;

    private final Session session;
    private final int number;
    private final long daysAhead;
    private final long epochDay;
    private final long startSecond;
    private final long endSecond;
    private final int minutes;
    private final int held;

    Slot(Session session, int number, LocalDate asOf) {
        this.session = session;
        this.number = number;
        this.daysAhead = ChronoUnit.DAYS.between(asOf, session.date());
        this.epochDay = session.date().toEpochDay();
        this.startSecond = session.start().toEpochSecond(ZoneOffset.UTC);
        this.endSecond = session.end().toEpochSecond(ZoneOffset.UTC);
        this.minutes = session.minutes();
        this.held = session.keptOn(asOf);
    }

    Session session() {
        return session;
    }

    /** Its place among all sessions by time, from 0. */
    int number() {
        return number;
    }

    /** Days from the day of planning, 0 or more for a session that can be used. */
    long daysAhead() {
        return daysAhead;
    }

    /** Its day, counted as {@link LocalDate#toEpochDay} does. */
    long epochDay() {
        return epochDay;
    }

    /** When it starts, counted in seconds on the clock of the place. */
    long startSecond() {
        return startSecond;
    }

    /** When it ends, counted in the same way. */
    long endSecond() {
        return endSecond;
    }

    int minutes() {
        return minutes;
    }

    /** Minutes of it that are kept for urgent cases on the day of planning. */
    int held() {
        return held;
    }

    /** Minutes of it that others may use on the day of planning, 0 or more. */
    int open() {
        return minutes - held;
    }

    @Override
    public String toString() {
        return session.id();
    }
}
