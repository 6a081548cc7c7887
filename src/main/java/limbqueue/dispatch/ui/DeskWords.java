package limbqueue.dispatch.ui;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import limbqueue.dispatch.Channel;
import limbqueue.dispatch.DeskLine;
import limbqueue.dispatch.Dispatch;

/** What the desk says of a letter. */
final class DeskWords {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter MOMENT =
            DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH).withZone(ZoneId.systemDefault());

    private DeskWords() {}

    static String day(LocalDate date) {
        return DAY.format(date);
    }

    static String moment(Instant at) {
        return MOMENT.format(at);
    }

    /** By which channel it goes, and where. */
    static String way(DeskLine line) {
        return line.dispatch()
                .map(way -> way.address().isEmpty() ? "no address known" : way(way))
                .orElse(line.letter().channel());
    }

    private static String way(Dispatch way) {
        return way.channel() == Channel.POST ? "by post" : "by " + way.channel().word() + " to " + way.address();
    }

    static String state(DeskLine line) {
        return line.dispatch()
                .map(DeskWords::state)
                .orElseGet(() -> line.letter()
                        .sentAt()
                        .map(at -> "Sent " + MOMENT.format(at)
                                + line.letter().sentBy().map(by -> ", by " + by).orElse(""))
                        .orElse(""));
    }

    private static String state(Dispatch way) {
        return switch (way.state()) {
            case TO_SEND -> waiting(way);
            case SENDING -> "Is being sent";
            case SENT -> "Sent " + MOMENT.format(way.at()) + ", by " + way.author();
            case FAILED, BOUNCED -> way.why();
            case HELD -> way.author().equals("LimbQueue") ? way.why() : "Held by " + way.author() + ": " + way.why();
            case WITHDRAWN -> "Not sent";
        };
    }

    private static String waiting(Dispatch way) {
        if (way.waitsForTheDecision(Instant.now())) {
            return "Waits until " + MOMENT.format(way.leavesFrom()) + ": the decision can be taken back until then";
        }
        if (way.attempts() > 0) {
            return "Tried " + (way.attempts() == 1 ? "once" : way.attempts() + " times") + ", again "
                    + MOMENT.format(way.dueAt()) + ". " + way.why();
        }
        return way.channel() == Channel.POST ? "Goes with the next post" : "Leaves by itself";
    }
}
