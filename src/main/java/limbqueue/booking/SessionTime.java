package limbqueue.booking;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Optional;

/** When a session is, as it is entered: a day and two times on the clock of the place. Which of that can be, is told in words. */
public sealed interface SessionTime {

    /**
     * It can be.
     *
     * @param minutes that pass in it
     * @param remark what is worth knowing of it: that clocks are changed while it lasts
     */
    record Possible(LocalDateTime start, LocalDateTime end, int minutes, Optional<String> remark)
            implements SessionTime {}

    /**
     * It cannot be.
     *
     * @param end whether it is the end that is wrong, or the start
     * @param text what is wrong and what to do
     */
    record Impossible(boolean end, String text) implements SessionTime {}

    /** What comes of {@code start} and {@code end} on {@code date}. */
    static SessionTime of(LocalDate date, LocalTime start, LocalTime end, ZoneId zone) {
        if (start.equals(end)) {
            return new Impossible(
                    true, "The session starts and ends at %s, so it has no time. Change one of them.".formatted(start));
        }
        if (end.isBefore(start)) {
            return new Impossible(
                    true,
                    "The session ends at %s, before it starts at %s. Change one of them; a session past midnight is entered as two."
                            .formatted(end, start));
        }
        return clock(date.atTime(start), zone)
                .<SessionTime>map(text -> new Impossible(false, text))
                .or(() -> clock(date.atTime(end), zone).map(text -> new Impossible(true, text)))
                .orElseGet(() -> possible(date.atTime(start), date.atTime(end), zone));
    }

    private static Optional<String> clock(LocalDateTime time, ZoneId zone) {
        var change = zone.getRules().getTransition(time);
        if (change == null) {
            return Optional.empty();
        }
        var from = change.getDateTimeBefore();
        var to = change.getDateTimeAfter();
        // The first moment after a gap, and that after the hour that comes twice, are times like any other.
        if (change.isGap()) {
            return Optional.of("There is no %s on %s in %s: clocks go from %s to %s that night. Take another time."
                    .formatted(time.toLocalTime(), time.toLocalDate(), zone, from.toLocalTime(), to.toLocalTime()));
        }
        return Optional.of(
                "%s comes twice on %s in %s: clocks go back from %s to %s that night. Take a time outside of that hour."
                        .formatted(time.toLocalTime(), time.toLocalDate(), zone, from.toLocalTime(), to.toLocalTime()));
    }

    private static SessionTime possible(LocalDateTime start, LocalDateTime end, ZoneId zone) {
        var minutes = Math.toIntExact(
                Duration.between(start.atZone(zone), end.atZone(zone)).toMinutes());
        var shown = Duration.between(start, end).toMinutes();
        return new Possible(
                start,
                end,
                minutes,
                minutes == shown
                        ? Optional.empty()
                        : Optional.of("Clocks are changed while it lasts: from %s to %s %s, not %d."
                                .formatted(
                                        start.toLocalTime(),
                                        end.toLocalTime(),
                                        minutes == 1 ? "passes 1 minute" : "pass " + minutes + " minutes",
                                        shown)));
    }
}
