package limbqueue.triage.finding;

import java.util.List;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.anatomy.LesionFacts;
import limbqueue.triage.question.Entries;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * The largest sheath to reckon with: the usual working sheath of the procedure plan, so that a covered stent fits. A smaller
 * one, as below the knee, only makes less of a puncture of it.
 *
 * @param french outer size of what it lets through, in French
 * @param why the assumption in words
 */
public record PlannedSheath(double french, String why) {

    public static PlannedSheath of(Limits limits) {
        return new PlannedSheath(
                limits.of(Limit.PLAN_SHEATH_WORKING), "the usual working sheath, so that a covered stent fits");
    }

    /** Whether a vessel may rupture when it is opened, so that a covered stent must be at hand. */
    public static boolean mayRupture(ReferralDocument document, Limits limits) {
        return Entries.any(LesionFacts.placed(document.lesions().orElse(List.of()), limits), IliacDisease::canRupture);
    }
}
