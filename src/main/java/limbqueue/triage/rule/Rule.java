package limbqueue.triage.rule;

import java.util.List;
import java.util.Locale;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.ThresholdFile.Seen;

/**
 * What the book says of one rule.
 *
 * @param id as results name it; the codes of the work-up with {@link Firings#WORK_UP} before them
 * @param says the rule in one sentence for the clinician
 * @param citations where it is printed, the source that results name first; never empty
 * @param limits the numbers it compares with
 */
public record Rule(String id, Group group, String says, List<Citation> citations, List<Limit> limits) {

    /** The chapters of the book, in their order. */
    public enum Group {
        PERFUSION("Perfusion"),
        GRADES("Grades"),
        LIMB_THREAT("Limb threat"),
        WIFI("WIfI"),
        ANATOMY("Anatomy"),
        URGENCY("Urgency"),
        RED_FLAGS("Red flags"),
        WORK_UP("Work-up"),
        PLAN("Procedure plan");

        private final String heading;

        Group(String heading) {
            this.heading = heading;
        }

        public String heading() {
            return heading;
        }

        /** As the file names it. */
        String id() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * A place where the rule is printed.
     *
     * @param source id of the source
     * @param locator where in the source; for common practice, what the habit is
     * @param seen how far it was checked
     */
    public record Citation(String source, String locator, Seen seen) {}

    public Rule {
        citations = List.copyOf(citations);
        limits = List.copyOf(limits);
        if (citations.isEmpty()) {
            throw new IllegalArgumentException("the rule " + id + " names no source");
        }
    }

    /** The source that results name. */
    public String source() {
        return citations.getFirst().source();
    }
}
