package limbqueue.referral;

import java.util.List;
import java.util.stream.Collectors;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.AccessSite;
import limbqueue.triage.ProcedurePlan.Place;
import limbqueue.triage.ProcedurePlan.Sheath;
import limbqueue.triage.Side;

/** A procedure plan in words. */
public final class PlanWords {

    private PlanWords() {}

    /** As {@code Left leg}, {@code Both legs}. */
    public static String legs(List<Side> sides) {
        return sides.size() == 1 ? side(sides.getFirst(), "Left leg", "Right leg") : "Both legs";
    }

    /** Sites that are used together: {@code both groins and left upper arm}. */
    public static String together(List<AccessSite> sites) {
        var groins =
                sites.stream().filter(site -> site.place() == Place.FEMORAL).count() == 2;
        var words = sites.stream()
                .filter(site -> !(groins && site.place() == Place.FEMORAL))
                .map(PlanWords::of)
                .collect(Collectors.joining(" and "));
        if (!groins) {
            return words;
        }
        return words.isEmpty() ? "both groins" : "both groins and " + words;
    }

    public static String of(AccessSite site) {
        return side(site.side(), "left ", "right ")
                + switch (site.place()) {
                    case FEMORAL -> "groin";
                    case BRACHIAL -> "upper arm";
                    case RADIAL -> "wrist";
                    case PROFUNDA -> "deep femoral artery, upwards";
                    case SUPERFICIAL_FEMORAL -> "superficial femoral artery, small system";
                    case POPLITEAL -> "popliteal artery, upwards";
                    case TIBIAL -> "tibial artery, upwards";
                };
    }

    /** As {@code about 96 minutes; nine of ten cases within 173}. */
    public static String minutes(ProcedurePlan plan) {
        return "about " + plan.expectedMinutes() + " minutes; nine of ten cases within " + plan.expectedMinutes90();
    }

    /** As {@code 7 Fr, 45 cm, from the groin: fits a covered stent}. */
    public static String sheath(Sheath sheath) {
        return sheath.french() + " Fr, " + sheath.lengthCm() + " cm, from " + sheath.from() + ": fits " + sheath.fits();
    }

    private static String side(Side side, String left, String right) {
        return side == Side.LEFT ? left : right;
    }
}
