package limbqueue.sameday.ui;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import limbqueue.sameday.RingingCase;

/** A case that rings, in words. */
final class RingWords {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);
    private static final DateTimeFormatter MOMENT = DateTimeFormatter.ofPattern("d MMM, HH:mm", Locale.ENGLISH);

    private RingWords() {}

    /** {@code LQ-2026-0012, since 14:03}, and whom it was asked of if nobody took it in time. */
    static String of(RingingCase one) {
        var since = "since " + time(one.sameDay().since());
        return (one.patient().isPresent() ? one.reference() + ", " + since : since)
                + one.sameDay()
                        .escalation()
                        .map(late -> "; after " + late.minutes() + (late.minutes() == 1 ? " minute" : " minutes")
                                + " asked of " + late.to())
                        .orElse("");
    }

    /** The time, with its day where that is another. */
    static String time(Instant at) {
        var moment = at.atZone(ZoneId.systemDefault());
        return moment.toLocalDate().equals(LocalDate.now(ZoneId.systemDefault()))
                ? TIME.format(moment)
                : MOMENT.format(moment);
    }
}
