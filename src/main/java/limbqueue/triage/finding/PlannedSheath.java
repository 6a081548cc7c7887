package limbqueue.triage.finding;

import java.util.List;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.anatomy.LesionFacts;
import limbqueue.triage.threshold.Limits;

/**
 * The largest sheath to reckon with before anybody planned the case: one through which a covered stent fits where one may
 * be needed, else the usual working sheath (common practice, no source).
 *
 * @param french outer size of what it lets through, in French
 * @param why the assumption in words
 */
public record PlannedSheath(double french, String why) {

    private static final PlannedSheath FOR_COVERED_STENT = new PlannedSheath(7, "a covered stent may be needed");
    private static final PlannedSheath USUAL = new PlannedSheath(6, "the usual working sheath");

    public static PlannedSheath of(ReferralDocument document, Limits limits) {
        return mayRupture(document, limits) ? FOR_COVERED_STENT : USUAL;
    }

    /** Whether a vessel may rupture when it is opened, so that a covered stent must be at hand. */
    public static boolean mayRupture(ReferralDocument document, Limits limits) {
        return LesionFacts.placed(document.lesions().orElse(List.of()), limits).stream()
                .anyMatch(IliacDisease::canRupture);
    }
}
