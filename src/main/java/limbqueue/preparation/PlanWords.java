package limbqueue.preparation;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.AccessSite;
import limbqueue.triage.Side;

/** The plan of a case in the words of these pages. */
public final class PlanWords {

    private PlanWords() {}

    /** Each attempt on a line, in order, then what is left when they have failed. */
    public static List<String> access(ProcedurePlan plan) {
        var several = plan.sides().size() > 1;
        var lines = plan.access().stream()
                .map(step -> step.order() + ". " + (several ? legs(step.sides()) : "") + sites(step.sites()))
                .collect(Collectors.toList());
        plan.bailOut()
                .forEach(step -> lines.add("Bail-out: " + (several ? legs(step.sides()) : "") + sites(step.sites())));
        return List.copyOf(lines);
    }

    public static List<String> sheaths(ProcedurePlan plan) {
        return plan.sheath().stream()
                .map(sheath -> "Sheath, " + sheath.from() + ": " + sheath.french() + " Fr, " + sheath.lengthCm()
                        + " cm, for " + sheath.fits())
                .toList();
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

    private static String legs(List<Side> sides) {
        return sides.stream().map(PlanWords::word).collect(Collectors.joining(" and ")) + " leg: ";
    }

    private static String sites(List<AccessSite> sites) {
        return sites.stream().map(PlanWords::word).collect(Collectors.joining(" with "));
    }

    private static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
