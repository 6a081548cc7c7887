package limbqueue.timetable;

import java.time.DayOfWeek;
import java.time.Instant;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;

/**
 * How much of each week is held in the procedure room for urgent cases, as somebody chose it.
 *
 * @param minutes of the days of the week, 0 to 1440 each; a day that is not in it holds none
 * @param releaseDays days before a session at the end of which what is still free of it is given to others, 0 to 28
 * @param author who chose it
 */
public record HeldTimeChoice(Map<DayOfWeek, Integer> minutes, int releaseDays, String author, Instant at) {

    public HeldTimeChoice {
        var sorted = new EnumMap<DayOfWeek, Integer>(DayOfWeek.class);
        sorted.putAll(minutes);
        sorted.values().removeIf(of -> of == 0);
        minutes = Collections.unmodifiableMap(sorted);
    }

    /** Minutes of a day of the week. */
    public int on(DayOfWeek day) {
        return minutes.getOrDefault(day, 0);
    }

    /**
     * What a session of the procedure room holds that is entered now: what the others of its day do not.
     *
     * @param others of the same day
     */
    HeldTime ofNew(Session session, List<KeptSession> others) {
        var held = others.stream()
                .filter(one -> one.session().kind() == SessionKind.PROCEDURE_ROOM
                        && one.closedBecause().isEmpty())
                .mapToInt(one -> one.session().held().minutes())
                .sum();
        return new HeldTime(Math.clamp(on(session.date().getDayOfWeek()) - held, 0, session.minutes()), releaseDays);
    }

    /** Minutes of a whole week. */
    public int inAWeek() {
        return minutes.values().stream().mapToInt(of -> of).sum();
    }
}
