package limbqueue.timetable.ui;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.Capability;
import limbqueue.booking.Session;
import limbqueue.shell.CountedWords;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.KeptSession;
import limbqueue.timetable.Placed;
import limbqueue.timetable.TimetableOutcome;

/** Words of these screens. */
final class SessionWords {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH);
    private static final DateTimeFormatter LONG_DAY = DateTimeFormatter.ofPattern("EEEE d MMMM yyyy", Locale.ENGLISH);
    private static final String OVERTAKEN =
            "Somebody else changed it at the same time. Look again; nothing was changed.";

    private SessionWords() {}

    static String day(LocalDate day) {
        return DAY.format(day);
    }

    static String longDay(LocalDate day) {
        return LONG_DAY.format(day);
    }

    static String first(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    /** What it is and when: {@code Clinic 08:00 to 12:00}. */
    static String title(Session session) {
        return "%s %s to %s"
                .formatted(
                        first(session.kind().words()),
                        session.start().toLocalTime(),
                        session.end().toLocalTime());
    }

    /** As it is chosen from: day, time, place, and how much room there is. */
    static String choice(FilledSession filled) {
        var session = filled.kept().session();
        return "%s, %s, %s: %d of %s taken"
                .formatted(
                        day(filled.kept().date()),
                        title(session),
                        session.place(),
                        filled.expected(),
                        CountedWords.of(session.minutes(), "minute"));
    }

    static String capabilities(Session session) {
        return session.capabilities().stream().sorted().map(Capability::words).collect(Collectors.joining(", "));
    }

    static String taken(FilledSession filled) {
        var taken = "%d of %s taken"
                .formatted(
                        filled.expected(),
                        CountedWords.of(filled.kept().session().minutes(), "minute"));
        if (filled.over() > 0) {
            return "%s, %d over the end".formatted(taken, filled.over());
        }
        return filled.overrun() > 0
                ? "%s; to end in time in nine of ten it would have to be %s longer"
                        .formatted(taken, CountedWords.of(filled.overrun(), "minute"))
                : taken;
    }

    /** What is held of it on {@code today}, or was; empty where nothing is, or it is over. */
    static Optional<String> held(Session session, LocalDate today) {
        var minutes = session.held().minutes();
        if (minutes == 0 || session.closed() || session.date().isBefore(today)) {
            return Optional.empty();
        }
        return Optional.of(
                session.keptOn(today) > 0
                        ? "%d min held for urgent cases until the end of %s"
                                .formatted(minutes, day(session.held().lastDay(session.date())))
                        : "The %d min held for urgent cases %s released"
                                .formatted(minutes, minutes == 1 ? "is" : "are"));
    }

    static String block(FilledSession filled, Placed placed) {
        var over = filled.overOf(placed);
        return "%s %s, %d min%s%s"
                .formatted(
                        filled.startsFor(placed).toLocalTime(),
                        placed.who(),
                        placed.minutes().expected(),
                        placed.told() ? ", told" : "",
                        over > 0 ? ", %d over".formatted(over) : "");
    }

    static String where(KeptSession kept) {
        return "%s, %s, %s"
                .formatted(
                        day(kept.date()), title(kept.session()), kept.session().place());
    }

    /** What is said after it: {@code done} with its remarks, or why not. */
    static String said(TimetableOutcome outcome, String done) {
        return switch (outcome) {
            case TimetableOutcome.Done(var remarks) ->
                remarks.isEmpty() ? done : done + " " + String.join(" ", remarks);
            case TimetableOutcome.Refused(var why) -> why;
            case TimetableOutcome.Overtaken _ -> OVERTAKEN;
            case TimetableOutcome.AsksFirst(var concerns) -> String.join(" ", concerns);
        };
    }
}
