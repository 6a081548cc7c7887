package limbqueue.booking.solver;

import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.Barred;
import limbqueue.booking.Capability;
import limbqueue.booking.Obstacle;
import limbqueue.booking.PlanRule;
import limbqueue.booking.Session;
import limbqueue.booking.Step;

/** Whether a step can be in a session, as one question for each rule that cannot be broken. */
final class Fit {

    private Fit() {}

    /** What keeps {@code step} out of {@code slot} whatever else is planned. */
    static Optional<Obstacle> alone(Step step, Slot slot) {
        return unsuitable(step, slot)
                .map(text -> new Obstacle(PlanRule.SUITABLE_SESSION, text))
                .or(() -> barred(step, slot).map(bar -> new Obstacle(PlanRule.OPEN_GATE, bar.why())))
                .or(() -> tooLong(step, slot.session()));
    }

    /** Why {@code slot} is no session for {@code step} on any day. */
    static Optional<String> unsuitable(Step step, Slot slot) {
        var session = slot.session();
        if (session.kind() != step.kind().session()) {
            return Optional.of(
                    "it is no session of the " + step.kind().session().words());
        }
        if (slot.daysAhead() < 0) {
            return Optional.of("it is over");
        }
        if (session.closed()) {
            return Optional.of(
                    session.closedFor().map("it is closed: %s"::formatted).orElse("it is closed"));
        }
        return session.capabilities().containsAll(step.needs())
                ? Optional.empty()
                : Optional.of("it lacks " + lacking(step, session));
    }

    private static String lacking(Step step, Session session) {
        return step.needs().stream()
                .filter(need -> !session.capabilities().contains(need))
                .sorted()
                .map(Capability::words)
                .collect(Collectors.joining(" and "));
    }

    /** The first stretch of time that keeps {@code step} from {@code slot}. */
    static Optional<Barred> barred(Step step, Slot slot) {
        for (var bar : step.barred()) {
            if (bar.bars(slot.session())) {
                return Optional.of(bar);
            }
        }
        return Optional.empty();
    }

    private static Optional<Obstacle> tooLong(Step step, Session session) {
        var expected = step.minutes().expected();
        return expected <= session.minutes()
                ? Optional.empty()
                : Optional.of(new Obstacle(
                        PlanRule.ROOM_IN_THE_SESSION,
                        "it is expected to take %d minutes, and the session has %d"
                                .formatted(expected, session.minutes())));
    }

    /** Whether {@code step} can be in {@code slot} when the step before it is in {@code before}. */
    static boolean inOrder(Step step, Slot slot, Slot before) {
        return slot.startSecond() >= soonest(step, before);
    }

    /** The first second in which {@code step} can begin after a step in {@code before}. */
    private static long soonest(Step step, Slot before) {
        return step.daysAfterPrevious() == 0
                ? before.endSecond()
                : (before.endSecond() / Slot.SECONDS_OF_A_DAY + step.daysAfterPrevious()) * Slot.SECONDS_OF_A_DAY;
    }

    /** Whether what {@code earlier} has found in {@code at} still counts on the day of {@code last}. */
    static boolean stillCounts(Step earlier, Slot at, Slot last) {
        return earlier.countsDays().isEmpty()
                || last.epochDay() <= at.epochDay() + earlier.countsDays().get();
    }

    /** Whether one patient can be in both. */
    static boolean apart(Slot one, Slot other) {
        return one == other || one.startSecond() >= other.endSecond() || other.startSecond() >= one.endSecond();
    }
}
