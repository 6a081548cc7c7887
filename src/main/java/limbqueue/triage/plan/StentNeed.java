package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.ProcedurePlan.Target;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Calcification;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import limbqueue.triage.anatomy.LesionFacts;
import limbqueue.triage.anatomy.Narrowing;
import limbqueue.triage.finding.IliacDisease;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * A vessel for which the plan wants a covered stent in the room, and which stents fit it. What imaging has not told is taken
 * at its most serious. Common practice, no source.
 *
 * @param lesions places of its lesions in the referral, from 0
 * @param side empty for the aorta, and where nobody has said it
 * @param vesselMm diameter of the vessel, the largest reported; empty while none is
 * @param widestMm the widest stent that fits; empty while the diameter is not known
 * @param lengthMm how long a stent must be at least: as long as the longest lesion, and no longer than is asked of any
 * @param unknown what nobody has said and what, if it turned out mild, would make the stent unnecessary
 */
public record StentNeed(
        List<Integer> lesions,
        Optional<Side> side,
        Segment segment,
        Optional<Double> vesselMm,
        Optional<Double> widestMm,
        double lengthMm,
        Set<Unknown> unknown) {

    /** A fact that would settle whether a stent is needed. */
    public enum Unknown {
        NARROWING,
        CALCIFICATION
    }

    private record Vessel(Segment segment, Optional<Side> side) {}

    /** The vessels of the lesions that {@code plan} treats, and of those that may be among them, in the order of the referral. */
    public static List<StentNeed> of(ReferralDocument document, ProcedurePlan plan, Limits limits) {
        var treated = plan.targets().stream().map(Target::lesion).collect(Collectors.toSet());
        var vessels = new LinkedHashMap<Vessel, List<LesionFacts>>();
        for (var lesion : LesionFacts.placed(document.lesions().orElse(List.of()), limits)) {
            var sideOpen = lesion.segment() != Segment.INFRARENAL_AORTA
                    && lesion.lesion().side().isEmpty();
            if (IliacDisease.canRupture(lesion) && (sideOpen || treated.contains(lesion.path()))) {
                vessels.computeIfAbsent(
                                new Vessel(lesion.segment(), lesion.lesion().side()), _ -> new ArrayList<>())
                        .add(lesion);
            }
        }
        return vessels.entrySet().stream()
                .map(vessel -> of(vessel.getKey(), vessel.getValue(), limits))
                .toList();
    }

    private static StentNeed of(Vessel vessel, List<LesionFacts> lesions, Limits limits) {
        var vesselMm = lesions.stream()
                .filter(lesion -> !lesion.aneurysm())
                .flatMap(lesion -> lesion.vesselDiameter().known().stream())
                .max(Double::compare);
        var enough = limits.of(Limit.PLAN_COVERED_STENT_LENGTH_ENOUGH);
        return new StentNeed(
                lesions.stream().map(LesionFacts::index).toList(),
                vessel.side(),
                vessel.segment(),
                vesselMm,
                vesselMm.map(width -> width + limits.of(Limit.PLAN_COVERED_STENT_WIDER_AT_MOST)),
                Math.min(
                        enough,
                        lesions.stream()
                                .mapToDouble(
                                        lesion -> lesion.millimetres(enough).acting())
                                .max()
                                .orElseThrow()),
                unknown(lesions));
    }

    /** Empty as soon as one lesion certainly wants a stent. */
    private static Set<Unknown> unknown(List<LesionFacts> lesions) {
        var unknown = EnumSet.noneOf(Unknown.class);
        for (var lesion : lesions) {
            var narrowing = lesion.narrowing();
            var calcification = lesion.calcification();
            var mildestNarrowing = narrowing.known().orElse(Narrowing.NONE);
            var mildestCalcification = calcification.known().orElse(Calcification.NONE);
            if (IliacDisease.canRupture(lesion.segment(), mildestNarrowing, mildestCalcification)) {
                return Set.of();
            }
            if (narrowing.known().isEmpty()) {
                unknown.add(Unknown.NARROWING);
            }
            if (calcification.known().isEmpty()) {
                unknown.add(Unknown.CALCIFICATION);
            }
        }
        return Set.copyOf(unknown);
    }

    /** Whether nobody has said on which side the vessel is. */
    public boolean sideOpen() {
        return side.isEmpty() && segment != Segment.INFRARENAL_AORTA;
    }

    /**
     * Whether a stent of this nominal size, in millimetres, seals this vessel; false while the vessel's diameter is not known.
     */
    public boolean fits(double stentMm, double stentLengthMm) {
        return vesselMm.map(vessel -> stentMm >= vessel).orElse(false)
                && widestMm.map(widest -> stentMm <= widest).orElse(false)
                && stentLengthMm >= lengthMm;
    }
}
