package limbqueue.triage.finding;

import java.util.List;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Lesion;

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

    public static PlannedSheath of(ReferralDocument document) {
        return document.lesions().orElse(List.of()).stream().anyMatch(PlannedSheath::wantsCoveredStent)
                ? FOR_COVERED_STENT
                : USUAL;
    }

    /** Whether the vessel may rupture: an iliac occlusion or a calcified iliac lesion. */
    public static boolean wantsCoveredStent(Lesion lesion) {
        return IliacDisease.iliac(lesion)
                && (lesion.stenosisPercent()
                                .map(percent -> percent.value() >= 100)
                                .orElse(false)
                        || lesion.calcification()
                                .map(calcification -> calcification != Calcification.NONE)
                                .orElse(false));
    }
}
