package limbqueue.booking;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.Tier;

/**
 * A plan that takes the place of the one that is kept, as the difference to it. A licensed clinician decides, and local protocol
 * prevails.
 *
 * @param notice the sentence that must stand beside every proposal
 * @param seed with which it was looked for
 * @param steps of the search after which it was given
 * @param levels in strict order
 * @param closed sessions that do not take place, by time, each with the reason
 * @param moves whatever changes, most urgent first
 * @param without cases for which a step has no place, most urgent first
 */
public record Replan(
        String notice,
        LocalDate asOf,
        long seed,
        int steps,
        List<LevelScore> levels,
        List<Session> closed,
        List<Moved> moves,
        List<Without> without) {

    /** @param points 0 is best */
    public record LevelScore(ReplanLevel level, long points) {}

    /** Why a place changes. */
    public enum Cause {
        /** It is the emergency itself. */
        EMERGENCY,
        /** The session does not take place, or the patient cannot come. */
        LOST_ITS_PLACE,
        /** Somebody else needs the room. */
        GIVES_WAY,
        /** Another step of the same case has moved. */
        FOLLOWS,
        /** There is room for it earlier now. */
        COMES_EARLIER,
        /** It had no place before. */
        HAD_NO_PLACE
    }

    /**
     * A step whose place changes.
     *
     * @param from the session in which it is kept; empty for none
     * @param to the session in the new plan; empty for none
     * @param at when the patient is expected there, if all before take as long as expected
     * @param minutes expected
     * @param told whether the patient has been told of the place that is kept: moving it needs a person's yes
     * @param why who gives way to whom, and why not somebody else; or what else it is, in sentences
     */
    public record Moved(
            String reference,
            Tier tier,
            StepKind step,
            Optional<String> from,
            Optional<String> to,
            Optional<LocalDateTime> at,
            long minutes,
            boolean told,
            Cause cause,
            String why) {}

    /**
     * A case that has no whole way.
     *
     * @param step the first one without a place
     * @param why which rule keeps it from one
     */
    public record Without(String reference, Tier tier, LocalDate target, StepKind step, String why) {}
}
