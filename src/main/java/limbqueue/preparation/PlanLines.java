package limbqueue.preparation;

import java.util.List;
import java.util.stream.Collectors;
import limbqueue.referral.PlanWords;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.Side;

/** The plan of a case as short lines. */
public final class PlanLines {

    private PlanLines() {}

    /** Each attempt in order, then what is left when they have failed. */
    public static List<String> access(ProcedurePlan plan) {
        var lines = plan.access().stream()
                .map(step -> step.order() + ". " + legs(plan, step.sides()) + PlanWords.together(step.sites()))
                .collect(Collectors.toList());
        plan.bailOut()
                .forEach(way -> lines.add("Bail-out: " + legs(plan, way.sides()) + PlanWords.together(way.sites())));
        return List.copyOf(lines);
    }

    public static List<String> sheaths(ProcedurePlan plan) {
        return plan.sheath().stream().map(PlanWords::sheath).toList();
    }

    /** How long it may take, and what that rests on. */
    public static String minutes(ExpectedMinutes minutes) {
        return "About " + minutes.median() + " minutes, nine of ten within " + minutes.ninety() + "; "
                + (minutes.ownCases() == 0
                        ? "common practice, until you have recorded cases of this kind."
                        : minutes.ownCases() == 1
                                ? "common practice and 1 of your cases."
                                : "common practice and " + minutes.ownCases() + " of your cases.");
    }

    /** Which leg it is for, where there are two. */
    private static String legs(ProcedurePlan plan, List<Side> sides) {
        return plan.sides().size() == sides.size() ? "" : PlanWords.legs(sides) + ": ";
    }
}
