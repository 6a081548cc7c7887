package limbqueue.booking;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.Tier;

/**
 * A plan as it is proposed, with its reasons. A licensed clinician decides, and local protocol prevails.
 *
 * @param notice the sentence that must stand beside every proposal
 * @param seed with which it was looked for
 * @param steps of the search after which it was given; 0 when it was not counted
 * @param levels in strict order
 * @param sessions that hold anybody, by time
 * @param told appointments that patients know of and that the plan would move; each needs a person's yes
 * @param cases most urgent first
 */
public record Plan(
        String notice,
        LocalDate asOf,
        long seed,
        int steps,
        List<LevelScore> levels,
        List<SessionLoad> sessions,
        List<MovedAppointment> told,
        List<CasePlan> cases) {

    /**
     * How well the plan does at one level.
     *
     * @param points 0 is best; of promises {@value Lateness#BROKEN_PROMISE} for each that is broken and 1 for each day
     * @param rules the rules of the level, a sentence each
     */
    public record LevelScore(PlanRule.Level level, long points, String words, List<String> rules) {}

    /**
     * A session with what it holds.
     *
     * @param minutes that pass in it
     * @param expected minutes of its cases together, their means added up
     * @param ninety minutes that they do not exceed in nine of ten such sessions
     * @param idle minutes of the session beyond those expected
     * @param held minutes of it that are kept for urgent cases on the day of planning
     * @param cases references, most urgent first
     */
    public record SessionLoad(
            String id,
            SessionKind kind,
            LocalDateTime start,
            LocalDateTime end,
            String place,
            String operator,
            int minutes,
            long expected,
            long ninety,
            long idle,
            int held,
            List<String> cases) {}

    /**
     * An appointment of which the patient has been told and that the plan moves.
     *
     * @param from id of the session that the patient knows of
     * @param to id of the session in the plan; empty without a place
     * @param why what keeps it from where it was, as the end of a sentence
     */
    public record MovedAppointment(String reference, StepKind step, String from, Optional<String> to, String why) {}

    /**
     * A case with its whole path.
     *
     * @param placed whether every step has a place
     * @param on the day of the last step
     * @param daysLate days after the target date, 0 or more; empty without a place
     * @param why why there, or which rule keeps it from a place
     * @param forEarlier what would have to give for an earlier place; empty when there is none earlier or no place at all
     */
    public record CasePlan(
            String reference,
            Tier tier,
            LocalDate target,
            boolean placed,
            Optional<LocalDate> on,
            Optional<Long> daysLate,
            String why,
            List<String> forEarlier,
            List<StepPlan> steps) {}

    /**
     * A step of a case.
     *
     * @param session its id; empty without a place
     * @param at when the patient is expected on the clock of the place, if all before take as long as expected
     * @param minutes expected
     * @param why why there, or what keeps it from a place
     */
    public record StepPlan(
            StepKind step,
            Optional<String> session,
            Optional<LocalDateTime> at,
            long minutes,
            String why,
            List<String> forEarlier) {}
}
